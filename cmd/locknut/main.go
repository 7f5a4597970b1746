// Command locknut compiles a build journal: it checks every value against what it should be, works numbers out and renders the whole as a
// site. Flags, the terminal and exit codes are here; everything else is in the packages below.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"slices"

	"github.com/alecthomas/kong"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
)

// The exit codes of every command.
const (
	exitGood  = 0 // done; no open finding at or above the threshold
	exitFound = 1 // done, but there is one
	exitWrong = 2 // it could not do what was asked
)

// commandLine is what can be asked for.
type commandLine struct {
	Begin   beginCommand   `cmd:"" help:"write a journal to begin with, which teaches by its comments"`
	Entry   entryCommand   `cmd:"" help:"write the next entry, with blanks for what is asked for"`
	Gauge   gaugeCommand   `cmd:"" help:"say how one value would stand now, and write nothing"`
	Compile compileCommand `cmd:"" help:"check the journal, work its numbers out and write its site"`
	Inspect inspectCommand `cmd:"" help:"check the journal and write nothing"`
	Export  exportCommand  `cmd:"" help:"write every value of the journal, with its place, time, verdict and origin"`
	Explain explainCommand `cmd:"" help:"say what a finding, a number, a key, a path or a unit is"`

	Version versionFlag `help:"print the version and stop"`
}

// command is one of them. It returns the exit code; an error says why it could not do what was asked.
type command interface {
	run(t *terminal) (int, error)
}

// terminal is where a command stands, what it writes to, and what it tells how large its work is.
type terminal struct {
	out, err           io.Writer
	outStyle, errStyle report.Style
	listed             func(files int) // nil for nobody
}

func main() {
	t := &terminal{listed: newCollector().expect, out: os.Stdout, err: os.Stderr, outStyle: styleOf(os.Stdout), errStyle: styleOf(os.Stderr)}
	os.Exit(run(os.Args[1:], t))
}

// styleOf returns colours for a terminal that may have them.
func styleOf(f *os.File) report.Style {
	if os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" || !isTerminal(f) {
		return report.Style{}
	}
	return report.Colours
}

// isTerminal reports whether a file is a character device other than the null device.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// run does what the arguments ask for and returns the exit code.
func run(args []string, t *terminal) int {
	if len(args) == 0 {
		parseArguments([]string{"--help"}, t.err)
		return exitWrong
	}
	asked, err := parseArguments(args, t.out)
	if errors.Is(err, errShown) {
		return exitGood
	}
	if err != nil {
		fmt.Fprintf(t.err, "locknut: %v\n`locknut --help` shows what there is\n", err)
		return exitWrong
	}
	code, err := asked.run(t)
	if err != nil {
		fmt.Fprintf(t.err, "locknut: %v\n", err)
		return exitWrong
	}
	return code
}

// errShown says that help or the version was asked for and shown.
var errShown = errors.New("shown")

// parseArguments reads the arguments. Help and the version go to out.
func parseArguments(args []string, out io.Writer) (command, error) {
	var line commandLine
	parser, err := kong.New(&line, kong.Name("locknut"), kong.Writers(out, out), kong.Help(printHelp))
	if err != nil {
		return nil, err
	}
	parser.Model.HelpFlag.Help = "print this and stop"
	ctx, err := parser.Parse(figuresLast(helpLast(args)))
	if err != nil {
		return nil, err
	}
	return ctx.Selected().Target.Addr().Interface().(command), nil
}

// helpLast takes `help COMMAND` for `COMMAND --help`, and `help` alone for `--help`.
func helpLast(args []string) []string {
	switch {
	case len(args) == 0 || args[0] != "help":
		return args
	case len(args) == 1 || args[1] == "help":
		return []string{"--help"}
	}
	return []string{args[1], "--help"}
}

// figuresLast moves arguments that are figures below nought to the end, behind `--`: they would pass for flags.
func figuresLast(args []string) []string {
	isFigure := func(arg string) bool {
		return len(arg) > 1 && arg[0] == '-' && (arg[1] >= '0' && arg[1] <= '9' || arg[1] == '.')
	}
	if slices.Contains(args, "--") || !slices.ContainsFunc(args, isFigure) {
		return args
	}
	var words, figures []string
	for _, arg := range args {
		if isFigure(arg) {
			figures = append(figures, arg)
		} else {
			words = append(words, arg)
		}
	}
	return slices.Concat(words, []string{"--"}, figures)
}

// versionFlag prints the version.
type versionFlag bool

// BeforeReset is called where the flag is given.
func (versionFlag) BeforeReset(k *kong.Kong) error {
	version := "(devel)"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	if _, err := fmt.Fprintf(k.Stdout, "locknut %s, journal format %d\n", version, journal.Format); err != nil {
		return err
	}
	return errShown
}
