package report

import (
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

func TestWhatIsLeftOffForItsTagsIsCounted(t *testing.T) {
	files := fstest.MapFS{
		"build.toml":              {Data: []byte("[site]\nhide = [\"private\"]\n")},
		"entries/2026-03-01-a.md": {Data: []byte("```toml\ntags = [\"oil\"]\n```\n")},
		"entries/2026-03-02-b.md": {Data: []byte("```toml\ntags = [\"private\", \"a b\"]\n```\n")}, // hidden for what can be read
		"entries/2026-03-03-c.md": {Data: []byte("```toml\ntags = 5\n```\n")},
	}
	said := func() string {
		t.Helper()
		result, err := journal.Compile(files, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		return Unclear(result)
	}
	const why = ", as tags that can't be read may be some that `hide` names: "
	if got, want := said(), "1 entry"+why+"entries/2026-03-03-c.md"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	files["entries/2026-03-05-\x1be.md"] = &fstest.MapFile{Data: []byte("```toml\ntitle = \"open\n```\n")}
	files["entries/2026-03-04-d.md"] = &fstest.MapFile{Data: []byte("```toml\n[set]\ntags = [\"private\"]\n```\n")}
	if got, want := said(), "3 entries"+why+"entries/2026-03-03-c.md, entries/2026-03-04-d.md, entries/2026-03-05-\ufffde.md"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	files["entries/2026-03-06.md"] = &fstest.MapFile{Data: []byte("```toml\ntag = \"private\"\n```\n")}
	files["entries/2026-03-07.md"] = &fstest.MapFile{Data: []byte("```toml\ntag = \"private\"\n```\n")}
	if got, want := said(), "5 entries"+why+"entries/2026-03-03-c.md, entries/2026-03-04-d.md, entries/2026-03-05-\ufffde.md and 2 more"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	files["build.toml"].Data = []byte("[site]\nhide = [\"spend\"]\n") // no tag
	if got := said(); got != "" {
		t.Errorf("nothing is hidden by a tag, and it says %q", got)
	}
}
