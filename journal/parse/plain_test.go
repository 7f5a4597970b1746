package parse

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/BurntSushi/toml"
)

// plainHead is a head as builders write them.
const plainHead = `title = "Lash after the run-in" # cold
meter = 1840
count = 2.5
done = true
tags = ["lash", "head"]
[found]
lash.intake.left = "0.08 mm"
lash.exhaust = '0.12 mm'
torque.head = 22
[found.wheel]
play = "0.05..0.10 mm"
size = "1 in"
`

// Of plain texts the decoder must say the same as the locator. The texts are those of toml-test (see above), and a head of ours with a few
// bytes put in, left out or changed at random from a fixed seed: the bytes that mean something in TOML.
func TestPlainTextsAreWhatTheDecoderReads(t *testing.T) {
	texts := slices.Collect(maps.Values(locateCorpus(t, "valid/")))
	texts = slices.AppendSeq(texts, maps.Values(locateCorpus(t, "invalid/")))
	r := rand.New(rand.NewPCG(7, 11))
	marks := "\"'[]{}=.,#\\\n\r\t 0123456789_-+eExabtfn:Z\x00\x7f\x85µ"
	for range 4000 {
		text := []byte(plainHead)
		for range 1 + r.IntN(3) {
			at := r.IntN(len(text))
			put := marks[r.IntN(len(marks))]
			switch r.IntN(3) {
			case 0:
				text = slices.Delete(text, at, at+1)
			case 1:
				text = slices.Insert(text, at, put)
			default:
				text[at] = put
			}
		}
		texts = append(texts, string(text))
	}
	plain := 0
	for _, text := range texts {
		root, breaks := locateText(text)
		if len(breaks) > 0 || !root.isPlain() {
			continue
		}
		plain++
		var decoded map[string]any
		if _, err := toml.Decode(text, &decoded); err != nil {
			t.Errorf("the decoder refuses a plain text: %v\n%q", err, text)
			continue
		}
		checkLocatedDecoded(t, text, root, decoded)
	}
	if plain < 500 {
		t.Errorf("%d of %d texts are plain: too few to tell anything", plain, len(texts))
	}
	t.Logf("%d of %d texts are plain", plain, len(texts))
}
