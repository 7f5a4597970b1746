package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// BenchmarkLogs compiles journals with a fuelling log of 50,000 rows and of 500,000, and reports how many times as long ten times the rows take, and the peak of memory of the longer one.
//
//	go test -run '^$' -bench Logs -benchtime 1x ./cmd/locknut
func BenchmarkLogs(b *testing.B) {
	locknut := filepath.Join(b.TempDir(), "locknut")
	if out, err := exec.Command("go", "build", "-o", locknut, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	root := tmpfs(b)
	short, long := filepath.Join(root, "short"), filepath.Join(root, "long")
	logged(b, short, 50_000)
	logged(b, long, 500_000)
	collector := newCollector()
	for b.Loop() {
		var shorts, longs []time.Duration
		for range 5 {
			shorts = append(shorts, timed(func() { compileJournal(b, collector, short, filepath.Join(root, "out-short")) }))
			longs = append(longs, timed(func() { compileJournal(b, collector, long, filepath.Join(root, "out-long")) }))
		}
		b.ReportMetric(float64(median(longs))/float64(median(shorts)), "500000/50000")
		b.ReportMetric(peak(b, locknut, "compile", long)/1024, "peak-MiB")
	}
}

// logged writes a journal with one log of so many rows: engine speed, throttle and lambda wander over all squares of a target of 16 by 16.
func logged(b *testing.B, folder string, rows int) {
	b.Helper()
	var target, log strings.Builder
	target.WriteString("[fuelling]\nfuel = \"E10\"\ntarget = \"\"\"\nlambda")
	for i := range 16 {
		fmt.Fprintf(&target, " %d", 1000+i*600)
	}
	for i := range 16 {
		fmt.Fprintf(&target, "\n%d", 6*i+5)
		for range 16 {
			target.WriteString(" 0.90")
		}
	}
	target.WriteString("\n\"\"\"\n")
	log.WriteString("time [s],rpm,throttle [%],lambda,oil.temp [°C]\n")
	for i := range rows {
		fmt.Fprintf(&log, "%.2f,%d,%d,%.3f,%.1f\n", float64(i)*0.02, 1000+i*37%9000, i/50%101, 0.85+float64(i*7919%1000)/1e4, 80+float64(i%1000)/40)
	}
	for name, text := range map[string]string{
		"build.toml": target.String(), "data/log.csv": log.String(), "entries/2026-05-02-ride.md": "```toml\n[[fuelling]]\ndata = \"data/log.csv\"\n```\n",
	} {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
}
