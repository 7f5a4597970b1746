package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/alecthomas/chroma/v2"
	chromahtml "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"

	"example.org/locknut/journal"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/render"
	"example.org/locknut/render/disk"
)

// BenchmarkSpeed compiles generated journals of 1,000 and 10,000 entries and reports each time as a multiple of the floor, taken in the same
// run, in turns: every input byte read, every body converted by goldmark with the same extensions and colouring, every byte of the site,
// made before, written; with the same parallelism. First is a compile where no site was, whose every page is written; the other replaces the same site. Ratios are of medians. On a noisy machine a ratio means something and a time does not.
//
//	go test -run '^$' -bench Speed -benchtime 1x ./cmd/locknut
func BenchmarkSpeed(b *testing.B) {
	locknut := filepath.Join(b.TempDir(), "locknut")
	if out, err := exec.Command("go", "build", "-o", locknut, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	collector := newCollector() // for the floor as well
	took := map[int]time.Duration{}
	for _, size := range []struct {
		name           string
		entries, parts int
	}{{"1000", 1000, 30}, {"1000-with-1000-parts", 1000, 1000}, {"10000", 10000, 30}} {
		entries := size.entries
		b.Run(size.name, func(b *testing.B) {
			root := tmpfs(b)
			folder := filepath.Join(root, "journal")
			generate(b, folder, entries, size.parts)
			site := siteOf(b, folder)
			for b.Loop() {
				var floors, firsts, compiles, inspects []time.Duration
				out := filepath.Join(root, "out")
				for range 5 {
					floors = append(floors, timed(func() { floor(b, collector, folder, site, filepath.Join(root, "floor")) }))
					if err := os.RemoveAll(out); err != nil {
						b.Fatal(err)
					}
					firsts = append(firsts, timed(func() { compileJournal(b, collector, folder, out) }))
					compiles = append(compiles, timed(func() { compileJournal(b, collector, folder, out) }))
					inspects = append(inspects, timed(func() { inspectJournal(b, collector, folder) }))
				}
				f, c := median(floors), median(compiles)
				if size.parts == 30 {
					took[entries] = c
				}
				b.ReportMetric(float64(c)/float64(f), "compile/floor")
				b.ReportMetric(float64(median(firsts))/float64(f), "first/floor")
				b.ReportMetric(float64(median(inspects))/float64(f), "inspect/floor")
				b.ReportMetric(f.Seconds()*1000, "floor-ms")
				b.ReportMetric((peak(b, locknut, "compile", folder)-50*1024)/float64(entries), "kB/entry-over-50MiB")
			}
			if small, large := took[1000], took[10000]; size.entries == 10000 && small > 0 && large > 0 {
				b.ReportMetric(float64(large)/float64(small), "10000/1000")
			}
		})
	}
	b.Run("start", func(b *testing.B) {
		for b.Loop() {
			for _, words := range [][]string{{"--version"}, {"explain", "lash"}} {
				var times []time.Duration
				for range 15 {
					times = append(times, timed(func() {
						if err := exec.Command(locknut, words...).Run(); err != nil {
							b.Fatal(err)
						}
					}))
				}
				b.ReportMetric(float64(median(times).Microseconds())/1000, strings.TrimLeft(words[0], "-")+"-ms")
			}
		}
	})
}

func timed(work func()) time.Duration {
	runtime.GC()
	start := time.Now()
	work()
	return time.Since(start)
}

func median(times []time.Duration) time.Duration {
	slices.Sort(times)
	return times[len(times)/2]
}

// tmpfs returns a folder in memory where the system has one.
func tmpfs(b *testing.B) string {
	if dir, err := os.MkdirTemp("/dev/shm", "locknut-speed-"); err == nil {
		b.Cleanup(func() { os.RemoveAll(dir) })
		return dir
	}
	return b.TempDir()
}

func compileJournal(b *testing.B, c *collector, folder, out string) {
	r, err := journal.Compile(os.DirFS(folder), journal.Options{Code: &markdown.Highlighter{}, Listed: c.expect})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := disk.Write(out, folder, func(sink render.Sink) error {
		_, err := render.Site(r, sink)
		return err
	}); err != nil {
		b.Fatal(err)
	}
}

func inspectJournal(b *testing.B, c *collector, folder string) {
	if _, err := journal.Compile(os.DirFS(folder), journal.Options{SkipHTML: true, Listed: c.expect}); err != nil {
		b.Fatal(err)
	}
}

// siteOf returns the site of a journal, in memory.
func siteOf(b *testing.B, folder string) *render.Memory {
	r, err := journal.Compile(os.DirFS(folder), journal.Options{Code: &markdown.Highlighter{}})
	if err != nil {
		b.Fatal(err)
	}
	var site render.Memory
	if _, err := render.Site(r, &site); err != nil {
		b.Fatal(err)
	}
	return &site
}

// floor does what no compiler of these files can leave out.
func floor(b *testing.B, c *collector, folder string, site *render.Memory, out string) {
	var names []string
	if err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			names = append(names, name)
		}
		return err
	}); err != nil {
		b.Fatal(err)
	}
	c.expect(len(names))
	code := &coloured{done: map[string]string{}}
	convert := goldmark.New(goldmark.WithExtensions(extension.GFM, extension.Footnote), goldmark.WithParserOptions(parser.WithAutoHeadingID()),
		goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(code, 100))))
	inParallel(names, func(name string) {
		text, err := os.ReadFile(name)
		if err != nil {
			panic(err)
		}
		if strings.HasSuffix(name, ".md") {
			body := text[bytes.Index(text[3:], []byte("\n```\n"))+8:]
			if err := convert.Convert(body, &bytes.Buffer{}); err != nil {
				panic(err)
			}
		}
	})
	if err := os.RemoveAll(out); err != nil {
		b.Fatal(err)
	}
	pages := site.Names()
	for _, name := range pages {
		if err := os.MkdirAll(filepath.Join(out, filepath.Dir(name)), 0o777); err != nil {
			b.Fatal(err)
		}
	}
	inParallel(pages, func(name string) {
		if err := os.WriteFile(filepath.Join(out, name), site.Page(name), 0o666); err != nil {
			panic(err)
		}
	})
}

func inParallel(names []string, work func(string)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(names)); i = next.Add(1) - 1 {
				work(names[i])
			}
		})
	}
	wait.Wait()
}

// coloured colours fenced code, each block once.
type coloured struct {
	mu   sync.Mutex
	done map[string]string
}

func (c *coloured) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(ast.KindFencedCodeBlock, func(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		block := node.(*ast.FencedCodeBlock)
		var text strings.Builder
		for i := range block.Lines().Len() {
			line := block.Lines().At(i)
			text.Write(line.Value(src))
		}
		language := string(block.Language(src))
		c.mu.Lock()
		html, done := c.done[language+text.String()]
		c.mu.Unlock()
		if !done {
			html = colourOf(language, text.String())
			c.mu.Lock()
			c.done[language+text.String()] = html
			c.mu.Unlock()
		}
		_, err := w.WriteString(html)
		return ast.WalkSkipChildren, err
	})
}

func colourOf(language, text string) string {
	lexer := lexers.Get(language)
	if lexer == nil {
		return text
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, text)
	if err != nil {
		return text
	}
	var out strings.Builder
	if err := chromahtml.New(chromahtml.WithClasses(true)).Format(&out, styles.Fallback, tokens); err != nil {
		return text
	}
	return out.String()
}

// peak returns the most memory that the program took, in kB. The system keeps that mark while the program runs; what it tells of one that
// has ended (ru_maxrss) begins at the size of this process, which started it.
func peak(b *testing.B, locknut string, words ...string) float64 {
	run := exec.Command(locknut, append(words, "--quiet", "--fail-on", "never")...)
	if err := run.Start(); err != nil {
		b.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- run.Wait() }()
	most := 0.0
	for {
		select {
		case err := <-ended:
			if err != nil || most == 0 {
				b.Fatalf("%v; the mark is %v kB", err, most)
			}
			return most
		case <-time.After(2 * time.Millisecond):
			status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", run.Process.Pid))
			if _, after, ok := strings.Cut(string(status), "VmHWM:"); ok {
				var kB float64
				if _, err := fmt.Sscan(after, &kB); err == nil {
					most = max(most, kB)
				}
			}
		}
	}
}

// generate writes a journal: 3 kB of Markdown and twelve readings an entry, a fenced block in one of ten, 48 paths, 20 limits, 30 parts,
// five readings of a hundred out. The same bytes each time.
func generate(b *testing.B, folder string, entries, partCount int) {
	r := rand.New(rand.NewPCG(1, 2))
	put := func(name, text string) {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			b.Fatal(err)
		}
	}
	put("build.toml", "title = \"Speed\"\nfitted = [\"part-0\"]\n[machine]\nname = \"Curlew 250\"\nmeter = \"km\"\n[engine]\ncylinders = [\"left\", \"right\"]\nbore = \"53.0 mm\"\nstroke = \"56.4 mm\"\n")
	var limits, parts strings.Builder
	for _, group := range []string{"torque", "float", "clearance", "squish"} {
		fmt.Fprintf(&limits, "[%s]\n", group)
		for i := range 5 {
			fmt.Fprintf(&limits, "item-%d = %q\n", i, limitOf(group))
		}
	}
	for i := range partCount {
		fmt.Fprintf(&parts, "[part-%d]\ntitle = \"Part %d\"\nslot = \"slot-%d\"\nprice = \"%d GBP\"\n", i, i, i%max(10, partCount/3), 10+i)
		if partCount > 30 { // a web of them
			fmt.Fprintf(&parts, "mass = \"1.%d kg\"\ngives = [\"gift-%d\"]\nneeds = [\"gift-%d\"]\nthen = [\"float.item-%d\"]\nclashes = [\"part-%d\"]\n", i, i, (i+1)%partCount, i%5, (i+500)%partCount)
		}
	}
	put("limits.toml", limits.String())
	put("parts.toml", parts.String())
	day := time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range entries {
		put(fmt.Sprintf("entries/%s.md", day.AddDate(0, 0, i).Format("2006-01-02")), entryText(r, i, partCount))
	}
}

func limitOf(group string) string {
	if group == "torque" {
		return "18..22 N·m"
	}
	return "0.05..0.20 mm"
}

func entryText(r *rand.Rand, i, partCount int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "```toml\nmeter = %d\n", 1000+i)
	if i%20 == 0 {
		fmt.Fprintf(&b, "fitted = [\"part-%d\"]\n", r.IntN(partCount))
	}
	b.WriteString("[set]\n")
	groups := []string{"torque", "float", "clearance", "squish"}
	chosen := r.Perm(48)[:12]
	for _, n := range chosen {
		group, value := groups[n%4], "0.10 mm"
		if group == "torque" {
			value = "20 N·m"
		}
		if r.IntN(20) == 0 {
			value = strings.Replace(strings.Replace(value, "20", "25", 1), "0.10", "0.30", 1)
		}
		fmt.Fprintf(&b, "%s.item-%d = %q\n", group, n/4, value)
	}
	fmt.Fprintf(&b, "```\n\n# %s\n\n", sentence(r, 4))
	for b.Len() < 3400 {
		switch r.IntN(6) {
		case 0:
			fmt.Fprintf(&b, "## %s\n\n", sentence(r, 3))
		case 1:
			fmt.Fprintf(&b, "- [x] %s\n- [x] %s\n\n", sentence(r, 6), sentence(r, 5))
		case 2:
			fmt.Fprintf(&b, "It is [?](value:%s.item-%d), *%s* and **%s**, with [a part](part:part-3).\n\n", groups[chosen[0]%4], chosen[0]/4, sentence(r, 3), sentence(r, 2))
		case 3:
			fmt.Fprintf(&b, "| a | b |\n|---|---|\n| %s | %s |\n\n", sentence(r, 2), sentence(r, 2))
		default:
			fmt.Fprintf(&b, "%s.\n\n", sentence(r, 60))
		}
	}
	if i%10 == 0 {
		fmt.Fprintf(&b, "```go\nfunc main() {\n\tfmt.Println(%q)\n}\n```\n", sentence(r, 3))
	}
	return b.String()
}

var shedWords = strings.Fields("the lash chain valve head bolt needle cold morning leaf drag measure again shed lamp spanner torque oil filter plug lead float bowl sprocket guide spring cap cam cover gasket hill ride smoke sound note written down before after good bad open closed")

func sentence(r *rand.Rand, n int) string {
	words := make([]string, n)
	for i := range words {
		words[i] = shedWords[r.IntN(len(shedWords))]
	}
	return strings.Join(words, " ")
}
