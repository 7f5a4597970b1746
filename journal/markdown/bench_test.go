package markdown

import (
	"bytes"
	"strings"
	"testing"

	"example.org/locknut/journal/source"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
)

// benchBody is about 3 kB of what an entry holds. The links are plain CommonMark, so that both sides do the same work.
var benchBody = strings.Repeat(`## The left cylinder

The intake had opened to [?](value:lash.intake.left.found). With the [212 cam](part:cam-212) in, it sits
[in limits](limit:lash.intake). Turned over *twice* by hand before the **starter** was let near it; the marks
on the sprocket and the case agree within a tooth's width, and the chain has no slack on the pull side.

| bolt | found | set |
|-----:|-------|-----|
| 1 | 21 N·m | 24 N·m |
| 2 | 19 N·m | 24 N·m |

- [x] Turned over by hand, marks checked
- [ ] Lash again after the first heat cycles, with the feeler from `+"`tools.toml`"+`

![Power before and after](chart:power)

1. Cover off, plugs out, piston at the top.
2. Bolts slackened in the order that the label gives, a quarter turn at a time.

> The label says cold; the shed was at 19 °C.

`, 3)

func BenchmarkRender(b *testing.B) {
	plain := goldmark.New(goldmark.WithExtensions(extension.GFM, extension.Footnote),
		goldmark.WithParserOptions(parser.WithAutoHeadingID()))
	f := source.NewFile("entries/2026-04-18-cam.md", benchBody)
	b.Run("whole", func(b *testing.B) {
		b.SetBytes(int64(len(benchBody)))
		b.ReportAllocs()
		for b.Loop() {
			Render(f, 0, len(benchBody), Options{})
		}
	})
	b.Run("without HTML", func(b *testing.B) {
		b.SetBytes(int64(len(benchBody)))
		b.ReportAllocs()
		for b.Loop() {
			Render(f, 0, len(benchBody), Options{SkipHTML: true})
		}
	})
	b.Run("plain goldmark", func(b *testing.B) {
		b.SetBytes(int64(len(benchBody)))
		b.ReportAllocs()
		for b.Loop() {
			var out bytes.Buffer
			if err := plain.Convert([]byte(benchBody), &out); err != nil {
				b.Fatal(err)
			}
		}
	})
}
