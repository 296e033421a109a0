// Package cmd is Laybill's command line: one file a subcommand, and the only
// place that knows the terminal, the clock, signals and exit codes.
package cmd

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"laybill/cmd/internal/term"
)

// Main runs the command line and returns the exit code.
func Main(args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	a := &app{stdin: stdin, stdout: stdout, stderr: stderr, progress: term.NewProgress(stderr, time.Now)}
	defer func() {
		if cause := recover(); cause != nil {
			a.progress.Clear()
			_, _ = fmt.Fprintf(stderr, "laybill: internal fault: %v\n  version  %s\n  place    %s\nNo file was changed. Please report these lines.\n", cause, version(), faultPlace())
			code = exitFault
		}
	}()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	return a.run(ctx, args)
}

// app is one run of the program: its streams and its progress line.
type app struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	progress       *term.Progress
	started        bool        // the command line was understood
	opened         []io.Closer // files to close at the end
}

func (a *app) run(ctx context.Context, args []string) int {
	root := a.root()
	root.SetArgs(args)
	root.SetIn(a.stdin)
	root.SetOut(a.stdout)
	root.SetErr(a.stderr)
	called, err := root.ExecuteContextC(ctx)
	a.progress.Clear()
	for _, file := range a.opened {
		_ = file.Close()
	}
	if err != nil && !a.started {
		err = usageError{err}
	}
	a.report(called, err)
	return exitCode(err)
}

func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "laybill",
		Short: "price the plank floors of apartment jobs",
		Long: `Laybill reads a workbook of rooms and products, lays every floor plank by plank,
and writes a workbook with the cut lists for the crew, the orders for the
office, and hours, cost, price and margin for the owner.`,
		Example: `  laybill price --demo              price the invented demo building
  laybill new job.xlsx              make a workbook to fill in
  laybill check job.xlsx            list everything that is wrong with it
  laybill price job.xlsx            write job-result.xlsx`,
		Version:           version(),
		Args:              cobra.NoArgs,
		SilenceErrors:     true,
		SilenceUsage:      true,
		PersistentPreRun:  func(*cobra.Command, []string) { a.started = true },
		RunE:              func(c *cobra.Command, _ []string) error { return c.Help() },
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
	}
	root.SetHelpTemplate(helpTemplate)
	root.AddCommand(a.newCommand(), a.checkCommand(), a.priceCommand(), a.compareCommand(), a.verifyCommand(), a.explainCommand())
	return root
}

// version is the module's version and, where the build knows it, its revision.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	text := info.Main.Version
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" && !strings.Contains(text, setting.Value[:min(12, len(setting.Value))]) {
			text += " " + setting.Value
		}
	}
	return text
}

// faultPlace is the innermost place of Laybill's own code in a panic.
func faultPlace() string {
	callers := make([]uintptr, 64)
	frames := runtime.CallersFrames(callers[:runtime.Callers(2, callers)])
	panicked := false
	for {
		frame, more := frames.Next()
		if panicked && strings.HasPrefix(frame.Function, "laybill/") {
			return fmt.Sprintf("%s, line %d", frame.Function, frame.Line)
		}
		panicked = panicked || frame.Function == "runtime.gopanic"
		if !more {
			return "unknown"
		}
	}
}
