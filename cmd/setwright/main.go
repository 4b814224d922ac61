// Command setwright turns a merchandising plan for a shop display unit into
// sheets that a crew can build from.
//
//	setwright sheets spring.yaml      # writes spring.pdf
//	setwright check spring.yaml       # says what is wrong with it
//
// Each subcommand has a file of its own; build.go is the whole pipeline.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"

	"github.com/spf13/pflag"
)

// version is what --version says and what every sheet carries.
const version = "0.1.0"

// program names the tool on sheets and in document properties.
const program = "Setwright " + version

// The exit statuses.
const (
	exitFine    = 0 // done
	exitStopped = 1 // done, but the plan has a finding of level stop
	exitFailed  = 2 // bad input, bad usage, or the result could not be written
)

// errStopped ends a command that did its work on a plan with a stop finding;
// errReported ends one whose errors have all been printed.
var (
	errStopped  = errors.New("stopped")
	errReported = errors.New("reported")
)

// streams are the command's standard input, output and error.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// gcPercent is how far the heap may grow before it is collected. A run is short
// and its garbage small: collecting less often costs little memory and saves a
// good part of the time.
const gcPercent = 400

// enoughMemory is where the heap is collected more often: pictures are large
// garbage. It bounds nothing that is in use.
const enoughMemory = 200 << 20

func main() {
	debug.SetGCPercent(gcPercent)
	debug.SetMemoryLimit(enoughMemory)
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}

// run carries out one command line and returns the exit status.
func run(args []string, s streams) int {
	err := dispatch(args, s)
	var usage usageError
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errStopped):
		return exitStopped
	case errors.Is(err, errReported):
	case errors.As(err, &usage):
		complain(s.err, err)
		fmt.Fprintf(s.err, "try: %s --help\n", usage.command)
	default:
		complain(s.err, err)
	}
	return exitFailed
}

// commands lists the subcommands in the order help shows them.
func commands() []*command {
	return []*command{
		sheetsCommand(),
		checkCommand(),
		resolveCommand(),
		listsCommand(),
		cutCommand(),
		kitCommand(),
		compareCommand(),
		resetCommand(),
		seasonsCommand(),
		recoverCommand(),
		verifyCommand(),
		partsCommand(),
		rulesCommand(),
		goodsCommand(),
		newCommand(),
		completionCommand(),
	}
}

func dispatch(args []string, s streams) error {
	if len(args) == 0 {
		topHelp(s.err)
		return errReported
	}
	switch args[0] {
	case "--version", "-V":
		_, err := fmt.Fprintf(s.out, "setwright %s (%s %s/%s)\n", version, runtime.Version(), runtime.GOOS, runtime.GOARCH)
		return err
	case "--help", "-h":
		topHelp(s.out)
		return nil
	case "help":
		args = append(args[1:], "--help")
		if len(args) == 1 {
			topHelp(s.out)
			return nil
		}
	}
	all := commands()
	for _, c := range all {
		if c.name == args[0] {
			return c.call(args[1:], s)
		}
	}
	return unknownCommand(args[0], all)
}

// call parses the flags and arguments of one subcommand and runs it.
func (c *command) call(args []string, s streams) error {
	err := c.flags.Parse(args)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		c.printHelp(s.out)
		return nil
	case err != nil:
		return c.misused("%v", err)
	case c.flags.NArg() < c.least:
		return c.misused("%s", c.missing)
	case c.flags.NArg() > c.most:
		return c.misused("one argument too many: %q", c.flags.Arg(c.most))
	}
	return c.run(c.flags.Args(), s)
}
