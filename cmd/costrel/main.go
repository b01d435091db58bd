// Command costrel turns the design of a PET bottle into one board: the margin
// to every limit, how sure it is and why.
//
// Exit codes: 0 no limit fails (limits that are close, not shown or open fail
// nothing), 1 a limit fails or cannot be held against a figure because a stage
// failed, 2 the input is not usable, 3 the program itself failed. check --stage
// counts the limits of that stage, check --why none; compare gives 1 when the
// variant fails a limit that the baseline does not.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"github.com/alecthomas/kong"

	"costrel/unit"
)

// Exit codes.
const (
	exitPass  = 0 // no limit fails
	exitFail  = 1 // a limit fails, or cannot be held against a figure because a stage failed
	exitInput = 2 // the input is not usable
	exitFault = 3 // the program failed
)

type cli struct {
	New       newCmd       `cmd:"" help:"Write a new design from a pack class and a few answers."`
	Check     checkCmd     `cmd:"" help:"Compute designs and print the board of margins."`
	Compare   compareCmd   `cmd:"" help:"Print what differs between two designs, worst margin lost per gram saved first."`
	Calibrate calibrateCmd `cmd:"" help:"Fit the blow or the shelf life of a design to laboratory tables."`
	Import    importCmd    `cmd:"" help:"Put an outline from a CSV table or a DXF drawing into a design."`
	Verify    verifyCmd    `cmd:"" help:"Print the table of published checks: ours, published, allowed, source."`
	Schema    schemaCmd    `cmd:"" help:"Print the JSON Schema of the design document."`
	Serve     serveCmd     `cmd:"" help:"Serve the workbench on this machine."`
}

// env is where the commands read and write.
type env struct {
	out, err io.Writer
}

// speller writes what it is handed with the quantities of sentences in the units
// that the command was given; see [unit.Spell]. A mark is never parted between
// two writes.
type speller struct {
	w   io.Writer
	sys *unit.System
}

// Write writes p, spelled.
func (s speller) Write(p []byte) (int, error) {
	if _, err := io.WriteString(s.w, unit.Spell(string(p), *s.sys)); err != nil {
		return 0, err
	}
	return len(p), nil
}

// exit is an error that carries an exit code and has been printed.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit %d", int(e)) }

// inputError is an error of the user's input.
type inputError struct{ error }

func main() {
	// A check allocates some 35 MB and keeps little of it: collecting less often
	// takes a fifth off its time for some tens of MB.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(Main(os.Args[1:], os.Stdout, os.Stderr))
}

// Main runs one command line and returns its exit code.
func Main(args []string, stdout, stderr io.Writer) (code int) {
	sys := unit.EU
	stdout, stderr = speller{stdout, &sys}, speller{stderr, &sys}
	e := &env{out: stdout, err: stderr}
	stop := -1
	parser, err := kong.New(&cli{},
		kong.Name("costrel"),
		kong.Description("A workbench for the engineer who develops PET bottles. Estimates do not replace qualified tests."),
		kong.Writers(stdout, stderr),
		kong.Exit(func(c int) { stop = c }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Bind(e),
	)
	if err != nil {
		fmt.Fprintln(stderr, "costrel:", err)
		return exitFault
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if stop >= 0 {
		return stop
	}
	if err != nil {
		fmt.Fprintln(stderr, "costrel:", err)
		return exitInput
	}
	for _, f := range ctx.Flags() {
		if s, ok := ctx.FlagValue(f).(unit.System); ok {
			sys = s
		}
	}
	err = ctx.Run()
	var x exit
	var in inputError
	switch {
	case err == nil:
		return exitPass
	case errors.As(err, &x):
		return int(x)
	case errors.As(err, &in):
		fmt.Fprintln(stderr, in.error)
		return exitInput
	}
	fmt.Fprintln(stderr, "costrel:", err)
	return exitFault
}
