package cmd

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"
)

// The exit codes.
const (
	exitDone        = 0
	exitNotAccepted = 1
	exitUsage       = 2
	exitFile        = 3
	exitFault       = 4
	exitInterrupted = 130
)

// helpTemplate is every command's help: what it does, its usage and examples,
// and the exit codes.
const helpTemplate = `{{.Long}}

{{.UsageString}}
Exit codes:
  0    done; warnings and cautions may stand
  1    the workbook has errors, --strict met a warning, or a result does not hold
  2    wrong command line
  3    a file cannot be read or written
  4    internal fault
  130  interrupted
`

// errNotAccepted says that the input was read and found wanting; what is wrong
// has been printed.
var errNotAccepted = errors.New("not accepted")

// usageError is a command line that cannot be run.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// fileError is a file that cannot be read or written.
type fileError struct {
	path string
	err  error
}

func (e fileError) Error() string { return fmt.Sprintf("%s: %v", e.path, e.err) }

func (e fileError) Unwrap() error { return e.err }

func cannotRead(path string, err error) error {
	return fileError{path, fmt.Errorf("cannot read: %w", because(err))}
}

func cannotWrite(path string, err error) error {
	return fileError{path, fmt.Errorf("cannot write: %w", because(err))}
}

// because is the system's reason without the file's name, which may be that of
// a passing file.
func because(err error) error {
	var inFile *fs.PathError
	var inLink *os.LinkError
	switch {
	case errors.As(err, &inFile):
		return inFile.Err
	case errors.As(err, &inLink):
		return inLink.Err
	}
	return err
}

// exitCode is the only place where errors become exit codes.
func exitCode(err error) int {
	var usage usageError
	var file fileError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	case errors.Is(err, errNotAccepted):
		return exitNotAccepted
	case errors.As(err, &usage):
		return exitUsage
	case errors.As(err, &file):
		return exitFile
	}
	return exitFault
}

// report says on standard error why a command ended.
func (a *app) report(called *cobra.Command, err error) {
	switch exitCode(err) {
	case exitDone, exitNotAccepted:
	case exitInterrupted:
		a.say("laybill: interrupted; nothing was written")
	case exitUsage:
		a.say("laybill: %v", err)
		a.say("Run '%s --help' for examples.", called.CommandPath())
	case exitFile:
		a.say("laybill: %v", err)
	default:
		a.say("laybill: internal fault: %v\n  version  %s", err, version())
	}
}

// say prints a line on standard error.
func (a *app) say(format string, args ...any) {
	_, _ = fmt.Fprintf(a.stderr, format+"\n", args...)
}

// print prints on standard output.
func (a *app) print(text string) { _, _ = fmt.Fprint(a.stdout, text) }
