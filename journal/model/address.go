package model

import (
	"net/url"
	"path"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// hostName is what a host may be called: letters, digits, dashes and dots. What else the standards let into a name (RFC 3986, 3.2.2, from
// memory) stands in no address that a browser opens.
var hostName = sync.OnceValue(func() *regexp.Regexp { // its tables are large, and most journals have no address
	return regexp.MustCompile(`^[\p{L}\p{M}\p{N}_-]+(\.[\p{L}\p{M}\p{N}_-]+)*\.?$`)
})

// SiteAddress reads the address at which a site will stand, as `url` in build.toml gives it: http or https, a host, perhaps a folder. It
// returns the address with a `/` at its end, percent-encoded; or why it is none, in words that go on from the text, and what was meant,
// where that can be told.
func SiteAddress(text string) (address, why, meant string) {
	text = strings.TrimSpace(text)
	scheme, rest, has := strings.Cut(text, "://")
	if scheme = strings.ToLower(scheme); !has {
		meant = "https://" + strings.TrimLeft(text, "/")
		if _, why, _ := SiteAddress(meant); why != "" || !strings.Contains(strings.SplitN(meant, "/", 4)[2], ".") {
			return "", "is no web address", ""
		}
		return "", "does not say how it is reached", meant
	}
	if scheme != "https" && scheme != "http" {
		return "", "is no web address: it begins with neither `https://` nor `http://`", ""
	}
	u, err := url.Parse(scheme + "://" + rest)
	switch {
	case err != nil:
		return "", "can't be read", ""
	case u.Hostname() == "":
		return "", "names no host", ""
	case u.User != nil:
		u.User = nil
		return "", "holds a user's name, which every page would publish", u.String()
	case !strings.HasPrefix(u.Host, "[") && !hostName().MatchString(u.Hostname()) || !isPort(u.Port()):
		return "", "has a host that can't be reached", ""
	case u.RawQuery != "" || u.ForceQuery || u.Fragment != "" || strings.HasSuffix(text, "#"):
		u.RawQuery, u.ForceQuery, u.Fragment, u.RawFragment = "", false, "", ""
		return "", "has something after its folder, at `?` or `#`", u.String()
	}
	if end := strings.ToLower(path.Ext(u.Path)); end == ".html" || end == ".htm" {
		meant, _, _ := SiteAddress(u.JoinPath("..").String())
		return "", "names a page; it is to name the folder of the site", meant
	}
	u.Host = strings.ToLower(u.Host)
	return u.JoinPath("/").String(), "", ""
}

func isPort(port string) bool {
	if port == "" {
		return true
	}
	n, err := strconv.Atoi(port)
	return err == nil && n > 0 && n <= 65535
}
