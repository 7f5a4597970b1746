package markdown

import (
	"net/url"
	"testing"
)

// The addresses are the examples of RFC 3986, 1.1.2, and the relative ones of 5.4; from memory.
func TestSplitScheme(t *testing.T) {
	for _, test := range []struct{ address, scheme, rest string }{
		{"ftp://ftp.is.co.za/rfc/rfc1808.txt", "ftp", "//ftp.is.co.za/rfc/rfc1808.txt"},
		{"ldap://[2001:db8::7]/c=GB?objectClass?one", "ldap", "//[2001:db8::7]/c=GB?objectClass?one"},
		{"mailto:John.Doe@example.com", "mailto", "John.Doe@example.com"},
		{"news:comp.infosystems.www.servers.unix", "news", "comp.infosystems.www.servers.unix"},
		{"tel:+1-816-555-1212", "tel", "+1-816-555-1212"},
		{"urn:oasis:names:specification:docbook:dtd:xml:4.1.2", "urn", "oasis:names:specification:docbook:dtd:xml:4.1.2"},
		{"g;x=1/../y", "", "g;x=1/../y"},
		{"./g:h", "", "./g:h"},
		{"//g", "", "//g"},
		{"", "", ""},
		{":a", "", ":a"},
		{"1a:b", "", "1a:b"},
		{"Part:x", "part", "x"},
		{"photos/a:b.jpg", "", "photos/a:b.jpg"},
	} {
		if scheme, rest := splitScheme(test.address); scheme != test.scheme || rest != test.rest {
			t.Errorf("%q: got %q %q, want %q %q", test.address, scheme, rest, test.scheme, test.rest)
		}
	}
}

// Each result is held against RFC 3986, 2 (read off the rules from memory), and must be one that Go's own net/url, a
// general-purpose program, reads back to the same host, path and query.
func TestEscapeAddress(t *testing.T) {
	for _, test := range []struct{ typed, want string }{
		{"https://example.org/a b", "https://example.org/a%20b"},
		{"https://example.org/a%20b%zz%", "https://example.org/a%20b%25zz%25"},
		{"https://example.org/x?a=[1]&b=\"2\"", "https://example.org/x?a=%5B1%5D&b=%222%22"},
		{"https://[2001:db8::7]/c[1]", "https://[2001:db8::7]/c%5B1%5D"},
		{"https://example.org/µm/気筒", "https://example.org/µm/気筒"},
		{"https://example.org/a\u00a0b\\c|d^e`f{g}<h>", "https://example.org/a%C2%A0b%5Cc%7Cd%5Ee%60f%7Bg%7D%3Ch%3E"},
		{"https://example.org/#a#b", "https://example.org/#a%23b"},
		{"mailto:me@example.org?subject=a b", "mailto:me@example.org?subject=a%20b"},
	} {
		got := escapeAddress(test.typed)
		if got != test.want {
			t.Errorf("%q: got %q, want %q", test.typed, got, test.want)
		}
		if _, err := url.Parse(got); err != nil {
			t.Errorf("%q: %v", got, err)
		}
		if again := escapeAddress(got); again != got {
			t.Errorf("%q escaped again is %q", got, again)
		}
	}
}

func TestDecode(t *testing.T) {
	for _, test := range []struct{ typed, want string }{
		{"my%20pic.jpg", "my pic.jpg"}, {"%C2%B5m", "µm"}, {"a%2fb", "a/b"},
		{"100%", "100%"}, {"%zz", "%zz"}, {"%ff", "%ff"}, {"a%00b", "a%00b"}, {"a%0Ab", "a%0Ab"},
	} {
		if got := decode(test.typed); got != test.want {
			t.Errorf("%q: got %q, want %q", test.typed, got, test.want)
		}
	}
}
