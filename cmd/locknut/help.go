package main

import (
	"bytes"
	"fmt"
	"strings"
	"text/tabwriter"

	"github.com/alecthomas/kong"
)

const about = `locknut compiles a build journal: it checks every value against what it should be, works out
numbers from them, and renders the whole build as a site.`

const codes = `exit codes
  0  done; no open finding at or above the threshold of --fail-on
  1  done, but there is one
  2  it could not do what was asked`

// printHelp writes the help of the program, or of the command that was named with it.
func printHelp(_ kong.HelpOptions, ctx *kong.Context) error {
	var out bytes.Buffer
	node := ctx.Selected()
	if node == nil {
		fmt.Fprintf(&out, "%s\n\nusage: locknut COMMAND [options]\n\ncommands\n", about)
		var rows [][2]string
		for _, c := range ctx.Model.Leaves(true) {
			rows = append(rows, [2]string{c.Name + arguments(c), c.Help})
		}
		writeRows(&out, rows)
		node = ctx.Model.Node
	} else {
		fmt.Fprintf(&out, "locknut %s: %s\n\nusage: locknut %[1]s%[3]s [options]\n", node.Name, node.Help, arguments(node))
		if node.Detail != "" {
			fmt.Fprintf(&out, "\n%s\n", node.Detail)
		}
	}
	out.WriteString("\noptions\n")
	var rows [][2]string
	for _, flags := range node.AllFlags(true) {
		for _, f := range flags {
			rows = append(rows, [2]string{flagName(f), f.Help})
		}
	}
	writeRows(&out, rows)
	if node == ctx.Model.Node {
		fmt.Fprintf(&out, "\n%s\n\n`locknut COMMAND --help` says more about one command.\n", codes)
	}
	if _, err := ctx.Stdout.Write(out.Bytes()); err != nil {
		return err
	}
	return errShown
}

func arguments(node *kong.Node) string {
	text := ""
	for _, p := range node.Positional {
		if name := strings.ToUpper(p.Name); p.Required {
			text += " " + name
		} else {
			text += " [" + name + "]"
		}
	}
	return text
}

func flagName(f *kong.Flag) string {
	name := "--" + f.Name
	if f.Short != 0 {
		name = "-" + string(f.Short) + ", " + name
	}
	if !f.IsBool() {
		name += " " + f.PlaceHolder
	}
	return name
}

func writeRows(out *bytes.Buffer, rows [][2]string) {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		fmt.Fprintf(w, "  %s\t%s\n", row[0], row[1])
	}
	w.Flush() // into memory
}
