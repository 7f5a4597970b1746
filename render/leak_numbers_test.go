package render

import (
	"strings"
	"testing"
)

// What rests on a figure of a hidden entry is told in no words: not in a finding about another figure, nor as the reason why a number can't be had.
func TestWordsThatRestOnHiddenEntriesAreHidden(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":                    "[site]\nhide = [\"secret\"]\n[engine]\nrod = \"200 mm\"\n",
		"entries/2026-03-01-stroke.md":  "```toml\ntags = [\"secret\"]\n[set]\nengine.stroke = \"166.6 mm\"\ncam.intake.at = \"1.23 mm\"\ncam.intake.opens = \"14° BTDC\"\n```\n",
		"entries/2026-03-08-redline.md": "```toml\n[set]\nengine.redline = \"10000 rpm\"\ncam.intake.closes = \"42° ABDC\"\ncam.exhaust.opens = \"46° BBDC\"\ncam.exhaust.closes = \"16° ATDC\"\n```\n",
	}))
	checkSite(t, m)
	all := everything(m)
	for _, secret := range []string{"166.6", "1.23", "absurd-piston-speed"} {
		if strings.Contains(all, secret) {
			t.Errorf("the site tells %q", secret)
		}
	}
}
