// Command ribwright turns a rib file into everything a builder needs to saw and glue a wooden truss rib:
// the full-size jig drawing, the cut file of the plates, the lists, the glue areas and the adhesive.
//
// Results go to stdout, messages to stderr. The exit status is 0, 1 where the rib file, or another that was read,
// has errors or where a measurement is over the tolerance, 2 where the command was called wrongly or a file could
// not be read or written.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"slices"

	"github.com/spf13/pflag"
)

// version is printed by --version.
const version = "0.1.0"

// The exit statuses.
const (
	exitOK    = 0
	exitFound = 1 // the rib file has errors, or a measurement is over the tolerance
	exitUsage = 2 // usage, input, output
)

func main() {
	tune()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// tune sets the collector for a run that is short and small: to collect seldom makes it a fifth quicker, but for
// large pictures. Where there is much in memory it is collected more often: half the memory, and no slower.
func tune() {
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(memory << 20)
}

// memory is what the program shall do with, in MB, and kindsInMB how many kinds of rib a set has for one more.
const (
	memory    = 160
	kindsInMB = 6
)

// app carries what a command writes to.
type app struct {
	out, err io.Writer
}

// command is one of the program's verbs.
type command struct {
	name, args, about string
	flags             func(*pflag.FlagSet, *options)
	run               func(*app, []string, *options) error
	most              int // arguments at most
	least             int // and at least
}

// options are the flags of all commands; each command shows its own.
type options struct {
	out             string
	format          string
	sheet           string
	table           string
	rib             string
	json            bool
	force           bool
	proof           bool
	paper, turn     string
	margin, overlap string
	printed         string
	chord, at       string
	picture         string
	curvature       string
	tolerance       string
	axes            bool
	png             int
	mix             mixFlags
	log             logFlags
}

// errFound says that what was found was told, and is not as it must be.
var errFound = errors.New("the rib file has errors")

// usageError is a mistake in the call.
type usageError struct{ msg string }

func (e usageError) Error() string { return e.msg }

func usage(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }

// run is the program, with its exit status.
func run(args []string, stdout, stderr io.Writer) int {
	a := &app{stdout, stderr}
	err := a.dispatch(args)
	var u usageError
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, errFound):
		return exitFound
	case errors.As(err, &u):
		fmt.Fprintf(stderr, "ribwright: %s\nSee \"ribwright help\".\n", u.msg)
	default:
		fmt.Fprintf(stderr, "ribwright: %v\n", err)
	}
	return exitUsage
}

func (a *app) dispatch(args []string) error {
	root := pflag.NewFlagSet("ribwright", pflag.ContinueOnError)
	root.SetInterspersed(false)
	root.SetOutput(io.Discard)
	wantVersion := root.Bool("version", false, "print the version")
	wantHelp := root.BoolP("help", "h", false, "print the help")
	if err := root.Parse(args); err != nil {
		return usage("%v", err)
	}
	rest := root.Args()
	switch {
	case *wantVersion:
		_, err := fmt.Fprintf(a.out, "ribwright %s\n", version)
		return err
	case *wantHelp && len(rest) == 0:
		return a.help(nil)
	case len(rest) == 0:
		return usage("say what to do: build, check, draw, list, log, measure, mix, new or sections")
	case rest[0] == "help":
		return a.help(rest[1:])
	}
	c := find(rest[0])
	if c == nil {
		return usage("there is no command %q", rest[0])
	}
	var o options
	fs := c.flagSet(&o)
	help := fs.BoolP("help", "h", false, "print this help")
	if err := fs.Parse(rest[1:]); err != nil {
		return usage("%s: %v", c.name, err)
	}
	if *help || *wantHelp {
		return a.help([]string{c.name})
	}
	if n := fs.NArg(); n < c.least || n > c.most {
		return usage("%s takes %s", c.name, c.args)
	}
	if slices.Contains(fs.Args(), "") {
		return usage("%s: the file's name is empty", c.name)
	}
	return c.run(a, fs.Args(), &o)
}

func (c *command) flagSet(o *options) *pflag.FlagSet {
	fs := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	fs.SetOutput(io.Discard)
	fs.SortFlags = false
	c.flags(fs, o)
	return fs
}
