package main

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/report"
)

// explainCommand says what something is.
type explainCommand struct {
	Name   []string `arg:"" optional:"" help:"what to explain"`
	Format string   `enum:"text,json" default:"text" placeholder:"FORMAT" help:"text (the usual) or json, to standard output"`
}

// Help is what its help says beyond a line.
func (*explainCommand) Help() string {
	return "NAME is the name of a finding or of a worked-out number, a key (engine.bore), a path (lash.intake.left), a unit (lbf·ft),\n" +
		"a kind of them (rules, numbers, keys, paths, units, build.toml), or a word that they have in common (lash).\n" +
		"Without it there is a list; with --format json, everything."
}

func (c *explainCommand) run(t *terminal) (int, error) {
	manual, name := report.Everything(), strings.Join(c.Name, " ")
	if name == "" {
		if c.Format == "json" {
			return exitGood, manual.JSON(t.out)
		}
		return exitGood, manual.Overview(t.out, t.outStyle)
	}
	found, near := manual.Find(name)
	if found.IsEmpty() && near != "" {
		fmt.Fprintf(t.err, "locknut: nothing is called `%s`; this is `%s`\n", name, near)
		found, _ = manual.Find(near)
	}
	if found.IsEmpty() {
		return 0, fmt.Errorf("nothing is called `%s`; `locknut explain` lists what there is", name)
	}
	if c.Format == "json" {
		return exitGood, found.JSON(t.out)
	}
	return exitGood, found.Text(t.out, t.outStyle)
}
