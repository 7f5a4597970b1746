package markdown

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
)

// different are the lexers that are code in the library where data can't say the same, and what becomes of them here.
var different = map[string]string{
	"Common Lisp": "the names that come with the language are looked up by code; here they are names like any other",
	"EmacsLisp":   "the same",
	"Haxe":        "code carries the state across #else and #end; plain here",
	"HTTP":        "code reads what follows the headers by the type that they tell; only the headers are coloured here",
	"Raku":        "code looks for the closing bracket; plain here",
}

// goString is a lexer that the library has no name for: templates in a Go string, whose remaining text is a string.
const goString = "Go Text Template in a string"

// mend says by data what a rule of the library says by code.
type mend struct {
	lexer, state string
	pattern      string // what the library's begins with; "" for a rule before all others
	rule         chroma.Rule
}

var mends = []mend{
	// A group inside another has no token of its own: the library has nil there, which is lost in writing.
	{"Caddyfile", "heredoc", "(<<", heredoc}, {"Caddyfile Directives", "heredoc", "(<<", heredoc},
	{"Go", "root", "(`)", chroma.Rule{Pattern: "(`)([^`]*)(`)",
		Type: chroma.ByGroups(chroma.LiteralString, chroma.Using(goString), chroma.LiteralString)}},
	{"HTTP", "headers", `([^\s:]+)`, chroma.Rule{Pattern: `([^\s:]+)( *)(:)( *)([^\r\n]+)(\r?\n|\Z)`,
		Type: chroma.ByGroups(chroma.Name, chroma.Text, chroma.Operator, chroma.Text, chroma.Literal, chroma.Text)}},
	{"HTTP", "headers", `([\t ]+)`, chroma.Rule{Pattern: `([\t ]+)([^\r\n]+)(\r?\n|\Z)`,
		Type: chroma.ByGroups(chroma.Text, chroma.Literal, chroma.Text)}},
	{"HTTP", "content", `.+`, chroma.Rule{Pattern: `.+`, Type: chroma.Generic}},
	{"markdown", "root", "", chroma.Rule{Pattern: `\A---\r?\n(?:.*\n)*?---\r?\n`, Type: chroma.Using("YAML")}},
	{"reStructuredText", "root", `^( *\.\.)(\s*)((?:source)?code`, chroma.Rule{
		Pattern: `^( *\.\.)(\s*)((?:source)?code(?:-block)?)(::)([ \t]*)([^\n]+)(\n[ \t]*\n)(([ \t]+)(?:.*)(?:\n)(?:(?:(?:\9.*|)\n)+))`,
		Type: chroma.UsingByGroup(6, 8, chroma.Punctuation, chroma.Text, chroma.OperatorWord, chroma.Punctuation, chroma.Text, chroma.Keyword,
			chroma.Text, chroma.String, chroma.Ignore)}},
}

var heredoc = chroma.Rule{Pattern: `(<<([a-zA-Z0-9_-]+))(\n(.*|\n)*)(\s*)(\2)`,
	Type: chroma.ByGroups(chroma.StringHeredoc, chroma.Ignore, chroma.String, chroma.String, chroma.String, chroma.StringHeredoc)}

// TestPackedLexers holds the zip against the library of go.mod, file by file. How closely it is packed is up to the Go that packed it.
func TestPackedLexers(t *testing.T) {
	want := packedLibrary(t)
	names := append(slices.Sorted(maps.Keys(want)), "") // the last one stands for no more
	if os.Getenv("UPDATE") != "" {
		writeZip(t, names[:len(names)-1], want)
	}
	packed := readZip(t)
	files, err := zip.NewReader(strings.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	for i, file := range files.File {
		if file.Name != names[i] {
			t.Fatalf("`%s` where `%s` should be: UPDATE=1 go test ./journal/markdown packs the lexers anew", file.Name, names[i])
		}
		if text, err := fs.ReadFile(files, file.Name); err != nil || !bytes.Equal(text, want[file.Name]) {
			t.Errorf("`%s` is not the library's (%v): UPDATE=1 go test ./journal/markdown packs the lexers anew", file.Name, err)
		}
	}
	if len(files.File) != len(want) {
		t.Errorf("%d files, want %d", len(files.File), len(want))
	}
}

// readZip reads the zip from the folder: the one in this program may have been packed anew a moment ago.
func readZip(t *testing.T) string {
	packed, err := os.ReadFile("lexers.zip")
	if err != nil {
		t.Fatal(err)
	}
	return string(packed)
}

// writeZip writes files without their times, so that the same library makes the same zip.
func writeZip(t *testing.T, names []string, texts map[string][]byte) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, name := range names {
		file, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := file.Write(texts[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("lexers.zip", out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// packedLibrary returns the files that the zip should hold.
func packedLibrary(t *testing.T) map[string][]byte {
	terms, err := os.ReadFile(filepath.Join(libraryFolder(t), "COPYING"))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{"COPYING": terms} // its licence travels with the copy
	var index []packedLexer
	for _, lexer := range lexers.GlobalLexerRegistry.Lexers {
		line, rules := unwrap(t, lexer)
		index = append(index, line)
		mendRules(t, line.Name, rules)
		text, err := marshalRules(rules)
		if errors.Is(err, chroma.ErrNotSerialisable) && different[line.Name] != "" {
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v", line.Name, err)
		}
		var read chroma.Rules
		if err := xml.Unmarshal(text, &read); err != nil || !reflect.DeepEqual(rules, read) {
			t.Fatalf("%s: what is read is not what was written (%v)", line.Name, err)
		}
		files[rulesFile(line.Name)] = text
	}
	index = append(index, packedLexer{Config: chroma.Config{Name: goString}})
	template := files[rulesFile("Go Text Template")]
	files[rulesFile(goString)] = bytes.ReplaceAll(template, []byte(`"Other"`), []byte(`"LiteralString"`))
	if files[lexerIndex], err = json.Marshal(index); err != nil {
		t.Fatal(err)
	}
	return files
}

// libraryFolder returns where the library's files are.
func libraryFolder(t *testing.T) string {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/alecthomas/chroma/v2").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}

// unwrap returns what the library registers a lexer by, and its rules. It reaches into the wrappers, which keep what they wrap to themselves.
func unwrap(t *testing.T, lexer chroma.Lexer) (packedLexer, chroma.Rules) {
	line := packedLexer{Config: *lexer.Config()}
	line.MimeTypes, line.Analyse = nil, nil // nobody asks for these
	switch kind := reflect.TypeOf(lexer).String(); kind {
	case "*chroma.RegexLexer":
	case "*chroma.delegatingLexer":
		line.Root = wrapped(lexer, "root").Config().Name
		lexer = wrapped(lexer, "language")
	case "*chroma.remappingLexer":
		lexer = wrapped(lexer, "lexer")
	case "*lexers.markdownLexer", "*lexers.httpBodyContentTyper":
		lexer = wrapped(lexer, "Lexer")
	default:
		t.Fatalf("%s is a %s, which nobody knows how to pack", line.Name, kind)
	}
	return line, maps.Clone(lexer.(*chroma.RegexLexer).MustRules())
}

func wrapped(lexer chroma.Lexer, field string) chroma.Lexer {
	return *(*chroma.Lexer)(reflect.ValueOf(lexer).Elem().FieldByName(field).Addr().UnsafePointer())
}

func mendRules(t *testing.T, lexer string, rules chroma.Rules) {
	for _, m := range mends {
		if m.lexer != lexer {
			continue
		}
		state := slices.Clone(rules[m.state])
		at := slices.IndexFunc(state, func(r chroma.Rule) bool { return strings.HasPrefix(r.Pattern, m.pattern) })
		if at < 0 {
			t.Fatalf("%s has no rule %s to mend", lexer, m.pattern)
		}
		if m.pattern == "" {
			state = slices.Insert(state, 0, m.rule)
		} else {
			state[at] = m.rule
		}
		rules[m.state] = state
	}
}

// marshalRules does what chroma.Marshal does, with the states in order.
func marshalRules(rules chroma.Rules) ([]byte, error) {
	type state struct {
		Name  string        `xml:"name,attr"`
		Rules []chroma.Rule `xml:"rule"`
	}
	var ordered struct {
		XMLName xml.Name `xml:"rules"`
		States  []state  `xml:"state"`
	}
	for _, name := range slices.Sorted(maps.Keys(rules)) {
		ordered.States = append(ordered.States, state{name, rules[name]})
	}
	return xml.Marshal(ordered)
}

// Whatever the library finds a lexer by finds the same one here. Files' endings are looked for in the order of all lexers: where that order is
// the same, and what each says of itself, a few are enough.
func TestLexersAreFoundAlike(t *testing.T) {
	ours := openLexers(readZip(t))
	asked := []string{"", "spanner", "h", "inc", "ino", "pl", "php", "sls", "ts", "x~", "MK", "hx", "md.bak", "go.mod"}
	for i, lexer := range lexers.GlobalLexerRegistry.Lexers {
		want, got := lexer.Config(), ours.Lexers[i].Config()
		if got.Name != want.Name || !slices.Equal(got.Filenames, want.Filenames) || !slices.Equal(got.AliasFilenames, want.AliasFilenames) || got.Priority != want.Priority {
			t.Fatalf("lexer %d is %+v, in the library %+v", i, got, want)
		}
		for _, word := range slices.Concat(want.Aliases, []string{want.Name}) {
			asked = append(asked, word, strings.ToUpper(word), strings.ToLower(word))
		}
	}
	slices.Sort(asked)
	for _, word := range slices.Compact(asked) {
		want, got := "none", "none"
		if lexer := lexers.Get(word); lexer != nil {
			want = lexer.Config().Name
		}
		if lexer := ours.Get(word); lexer != nil {
			got = lexer.Config().Name
		}
		if got != want {
			t.Errorf("`%s` finds %s, in the library %s", word, got, want)
		}
	}
}

// Every lexer makes of the library's own samples, and of a text with something of everything, what the library makes of them.
func TestLexersTokeniseAlike(t *testing.T) {
	ours := openLexers(readZip(t))
	samples := samples(t)
	for name := range different {
		if lexers.Get(name) == nil {
			t.Errorf("the library has no %s", name)
		}
	}
	for _, theirs := range lexers.GlobalLexerRegistry.Lexers {
		name := theirs.Config().Name
		same := true
		for file, text := range samples[name] {
			if makesSame(t, theirs, ours.Get(name), text) {
				continue
			}
			if same = false; different[name] == "" {
				t.Errorf("%s makes something else of %s than the library", name, file)
			}
		}
		if same && different[name] != "" {
			t.Errorf("%s makes the same of every sample as the library; it need not be among those that differ", name)
		}
	}
}

// makesSame asks three times: the library gives up on a rule that takes a quarter of a second, and a busy machine may take as long over any.
func makesSame(t *testing.T, theirs, ours chroma.Lexer, text string) bool {
	for range 3 {
		want, err := firstTokens(theirs, text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := firstTokens(ours, text); err == nil && slices.Equal(got, want) {
			return true
		}
	}
	return false
}

// firstTokens returns the tokens of a text, or the first of them: some of the library's lexers never end.
func firstTokens(lexer chroma.Lexer, text string) (tokens []chroma.Token, err error) {
	next, err := lexer.Tokenise(nil, text)
	if err != nil {
		return nil, err
	}
	for token := next(); token != chroma.EOF && len(tokens) < maxTokens(text); token = next() {
		tokens = append(tokens, token)
	}
	return tokens, nil
}

// samples returns texts by lexer and file.
func samples(t *testing.T) map[string]map[string]string {
	everything := "---\na: 1\n---\n# A\n\n" + tricks + "\n```go\nx := `{{.A}} b`\n```\n\n<p class=\"x\">{{ a }}<% b %><?php $c = 1; ?>${d}</p>\n"
	all := map[string]map[string]string{}
	for _, lexer := range lexers.GlobalLexerRegistry.Lexers {
		all[lexer.Config().Name] = map[string]string{"a text with everything": everything, "nothing": ""}
	}
	folder := os.DirFS(filepath.Join(libraryFolder(t), "lexers", "testdata"))
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(name) != ".actual" || strings.HasPrefix(name, "analysis/") {
			return err
		}
		language, _, inFolder := strings.Cut(name, "/")
		if !inFolder {
			language, _, _ = strings.Cut(name, ".")
		}
		text, err := fs.ReadFile(folder, name)
		all[lexers.Get(language).Config().Name][name] = string(text[:min(len(text), 1500)])
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// tricks are marks that many languages have a use for.
const tricks = `#if A // b /* c */ -- d ; e % f ! g
"h\n${i}" 'j' 0x1F 1.5e-3 1_000 @k $l &m :n <<EOT
o
EOT
(p [q {r}]) => -> ::s == != def class function return import
.. code-block:: go

   var t = 1

HTTP/1.1 200 OK
Content-Type: application/json

{"u": null, "v": [true]}
`

// A lexer whose file is torn leaves its code plain, and so does one that uses it there; all else has its colours.
func TestTornLexers(t *testing.T) {
	packed := readZip(t)
	for name, torn := range map[string]string{"nothing": "", "half": packed[:len(packed)/2], "another text": strings.Repeat("x", len(packed))} {
		if n := len(openLexers(torn).Lexers); n != 0 {
			t.Errorf("%s: %d lexers", name, n)
		}
	}
	files, err := zip.NewReader(strings.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	css := slices.IndexFunc(files.File, func(f *zip.File) bool { return f.Name == rulesFile("CSS") })
	at, err := files.File[css].DataOffset()
	if err != nil {
		t.Fatal(err)
	}
	ours := openLexers(packed[:at] + strings.Repeat("\xff", 100) + packed[at+100:])
	for code, coloured := range map[string]bool{"<b>a</b>\n": true, "<style>b {}</style>\n": false} {
		if tokens := tokensOf(ours.Get("html"), code); (len(tokens) > 1) != coloured || chroma.Stringify(tokens...) != code {
			t.Errorf("HTML with a torn CSS: %q", tokens)
		}
	}
	if tokens := tokensOf(ours.Get("css"), "b {}\n"); len(tokens) != 1 {
		t.Errorf("a torn CSS: %q", tokens)
	}
}

// Some of the library's lexers never come to an end of some texts.
func TestLexerWithoutEnd(t *testing.T) {
	for _, language := range []string{"jungle", "squid"} {
		if tokens := tokenise(language, tricks); len(tokens) != 1 || tokens[0].Value != tricks {
			t.Errorf("%s: %d tokens", language, len(tokens))
		}
	}
}

// Lexers that others use are read by several goroutines at once.
func TestLexersAtOnce(t *testing.T) {
	ours := openLexers(readZip(t))
	var wait sync.WaitGroup
	for range 4 {
		for _, language := range []string{"html", "css", "javascript", "go", "php", "yaml+jinja"} {
			wait.Go(func() {
				if tokens := tokensOf(ours.Get(language), "<style>b {}</style><script>c = `d`</script>\n"); len(tokens) == 1 {
					t.Errorf("%s is plain", language)
				}
			})
		}
	}
	wait.Wait()
}
