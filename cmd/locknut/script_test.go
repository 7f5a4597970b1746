package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"locknut": main})
}

// The stories of commands in testdata/script: each a small journal, what is asked, what comes out and with which exit code. UPDATE=1 writes
// the recorded output anew; exit codes and files are asserted by hand.
func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "../../testdata/script",
		UpdateScripts: os.Getenv("UPDATE") != "",
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "")
			env.Setenv("TERM", "xterm")
			example, err := filepath.Abs("../../example-build")
			env.Setenv("EXAMPLE", example)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}
