package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// tests are the tests of the package, and what they leave behind.
type tests struct{ *testing.M }

// Run runs them and takes away the program that some of them build.
func (m tests) Run() int {
	code := m.M.Run()
	if built != "" && os.RemoveAll(built) != nil && code == 0 {
		code = 1
	}
	return code
}

func TestMain(m *testing.M) {
	testscript.Main(tests{m}, map[string]func(){
		"costrel": func() { os.Exit(Main(os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the command lines of testdata/script against the program.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("EXAMPLES", examples)
			return nil
		},
	})
}
