package render

import (
	"strings"
	"testing"
)

// Findings about published entries tell no figure, and no file, of a hidden one.
func TestFindingsTellNothingOfHiddenEntries(t *testing.T) {
	files := map[string]string{
		"build.toml":              "[machine]\nmeter = \"km\"\n[site]\nhide = [\"private\"]\n",
		"entries/2026-03-01-a.md": "```toml\nmeter = 40000\n[found]\nchain.slack = \"35 mm\"\n```\n",
		"entries/2026-03-05-b.md": "```toml\nmeter = 41350\ntags = [\"private\"]\n[found]\nchain.slack = \"37.31 mm\"\n```\n![Dyno](../photos/secret-dyno.png)\n",
		"entries/2026-03-09-c.md": "```toml\nmeter = 40900\n```\nIt was [3 mm](value:chain.slack) ![x](../photos/secret-dyn.png).\n",
		"photos/secret-dyno.png":  "no picture",
	}
	all := everything(rendered(t, inMemory(files)))
	for _, secret := range []string{"41350", "37.31", "secret-dyno"} {
		if strings.Contains(all, secret) {
			t.Errorf("the site tells %q", secret)
		}
	}
	files["build.toml"] = "[machine]\nmeter = \"km\"\n"
	all = everything(rendered(t, inMemory(files)))
	for _, open := range []string{"41350", "37.31", "secret-dyno"} {
		if !strings.Contains(all, open) {
			t.Errorf("%q is nowhere even while nothing is hidden: the test proves nothing", open)
		}
	}
}
