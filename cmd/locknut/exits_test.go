package main

import (
	"errors"
	"os/exec"
	"strconv"

	"github.com/rogpeppe/go-internal/testscript"
)

// exits runs a command that must end with an exit code: `exits 2 locknut inspect`. What it writes goes to stdout and stderr as with exec.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND …")
	}
	want, err := strconv.Atoi(args[0])
	if err != nil {
		ts.Fatalf("%q is no exit code", args[0])
	}
	got := 0
	var failed *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &failed) {
		got = failed.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("%v ended with %d, want %d", args[1:], got, want)
	}
}
