package main

import (
	"io/fs"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/gauge"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/report"
)

// gaugeCommand holds one value to its limit, without writing it down.
type gaugeCommand struct {
	Path  string   `arg:"" help:"path of the value; it may be shortened while it is plain which is meant: lash.in.l"`
	Value []string `arg:"" help:"the value as an entry would have it: 0.10 mm"`
	Temp  string   `placeholder:"TEMP" help:"engine temperature, where the limit asks for one: '18 °C'"`
	In    string   `placeholder:"DIR" help:"folder of the journal; else the working folder, or the nearest above it that is one"`
}

// Help is what its help says beyond a line.
func (*gaugeCommand) Help() string {
	return "It says how the value would stand now, with the parts that are in, and exits with 1 where it would be out. Nothing is written."
}

func (c *gaugeCommand) run(t *terminal) (int, error) {
	root, err := openJournal(c.In)
	if err != nil {
		return 0, err
	}
	defer root.Close() // it was only read
	compile := func(folder fs.FS) (*journal.Result, error) { return t.compile(folder, journal.Options{SkipHTML: true}) }
	now, err := compile(root.FS())
	if err != nil {
		return 0, err
	}
	asked := gauge.Asked{Path: c.Path, Value: strings.Join(c.Value, " "), Temp: c.Temp, Day: today()}
	standing, err := asked.Hold(now, compile)
	if err != nil {
		return 0, err
	}
	if err := report.Gauge(t.out, standing, t.outStyle); err != nil {
		return 0, err
	}
	if standing.Value.Verdict == model.Out {
		return exitFound, nil
	}
	return exitGood, nil
}
