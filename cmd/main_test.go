package cmd

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"laybill/cmd/internal/term"
)

// newApp is a run of the program in this process.
func newApp(stdin io.Reader) (a *app, stdout, stderr *bytes.Buffer) {
	stdout, stderr = &bytes.Buffer{}, &bytes.Buffer{}
	return &app{stdin: stdin, stdout: stdout, stderr: stderr, progress: term.NewProgress(stderr, time.Now)}, stdout, stderr
}

func TestInterruptedRunWritesNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, stdout, stderr := newApp(nil)
	if got := a.run(ctx, []string{"price", "--demo", "--json", "demo.json"}); got != exitInterrupted {
		t.Errorf("exit code %d, want %d", got, exitInterrupted)
	}
	if got := stdout.String(); got != "" {
		t.Errorf("printed %q", got)
	}
	if got, want := stderr.String(), "laybill: interrupted; nothing was written\n"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	wantFiles(t, ".")
}

func wantFiles(t *testing.T, folder string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	if diff := cmp.Diff(want, names); diff != "" {
		t.Errorf("files in the folder (-want +got):\n%s", diff)
	}
}

// The running program is interrupted while it waits for the rest of its input.
// A pipe holds 64 KiB (pipe(7)); once a megabyte is written the program has
// begun to read, so its handler stands.
func TestInterruptOfTheRunningProgram(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := &exec.Cmd{Path: self, Args: []string{"laybill", "check", "-"}}
	input, err := program.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	program.Stderr = &stderr
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := input.Write(make([]byte, 1<<20)); err != nil {
		t.Fatal(err)
	}
	if err := program.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	const patience = 30 * time.Second // a program that does not heed the interrupt waits for ever
	defer time.AfterFunc(patience, func() { _ = program.Process.Kill() }).Stop()
	var exit *exec.ExitError
	if err := program.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted {
		t.Errorf("ended with %v, want exit code %d; it said %q", err, exitInterrupted, stderr.String())
	}
}

// failing is standard output or input that makes the program fail.
type failing struct{ with any }

func (f failing) Read([]byte) (int, error) { panic(f.with) }

func (f failing) Write([]byte) (int, error) { panic(f.with) }

func TestFaultEndsWithFourAndSaysWhere(t *testing.T) {
	var stderr bytes.Buffer
	got := Main([]string{"explain"}, nil, failing{"a planted fault"}, &stderr)
	if got != exitFault {
		t.Errorf("exit code %d, want %d", got, exitFault)
	}
	for _, want := range []string{"internal fault: a planted fault", "version  ", "place    laybill/cmd.failing.Write, line "} {
		if !strings.Contains(stderr.String(), want) {
			t.Errorf("said %q, which lacks %q", stderr.String(), want)
		}
	}
}

func TestExitCodes(t *testing.T) {
	for _, test := range []struct {
		name string
		err  error
		want int
	}{
		{"nothing", nil, 0},
		{"not accepted", errNotAccepted, 1},
		{"usage", usagef("no such thing"), 2},
		{"file", cannotRead("job.xlsx", os.ErrNotExist), 3},
		{"fault", errors.New("a fault"), 4},
		{"interrupted", context.Canceled, 130},
		{"interrupted while writing a file", cannotWrite("job.xlsx", context.Canceled), 130},
	} {
		if got := exitCode(test.err); got != test.want {
			t.Errorf("%s: exit code %d, want %d", test.name, got, test.want)
		}
	}
}

var errDiskFull = errors.New("no space left on device")

func TestOutputsAreWholeOrNotAtAll(t *testing.T) {
	write := func(text string) func(io.Writer) error {
		return func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
	}
	failMidway := func(w io.Writer) error {
		_, _ = io.WriteString(w, "half a fi")
		return errDiskFull
	}
	for _, test := range []struct {
		name      string
		first     func(io.Writer) error
		second    func(io.Writer) error
		cancelled bool
		want      string
	}{
		{name: "all written", first: write("new a"), second: write("new b"), want: "new a, new b"},
		{name: "the second fails midway", first: write("new a"), second: failMidway, want: "old a, old b"},
		{name: "interrupted before the end", first: write("new a"), second: write("new b"), cancelled: true, want: "old a, old b"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			put(t, "a", "old a")
			put(t, "b", "old b")
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			writeBoth(ctx, test.first, test.second, func() {
				if test.cancelled {
					cancel()
				}
			})
			if got := content(t, "a") + ", " + content(t, "b"); got != test.want {
				t.Errorf("files hold %s, want %s", got, test.want)
			}
			wantFiles(t, ".", "a", "b")
		})
	}
}

func writeBoth(ctx context.Context, first, second func(io.Writer) error, beforeEnd func()) {
	out := &outputs{}
	defer out.discard()
	if out.write(ctx, "a", first) != nil || out.write(ctx, "b", second) != nil {
		return
	}
	beforeEnd()
	_ = out.commit(ctx)
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// An output file that is open elsewhere or a leftover of a killed run is no
// hindrance: the passing name is one that is free.
func TestLeftoverOfAKilledRun(t *testing.T) {
	t.Chdir(t.TempDir())
	file, err := createBeside("result")
	if err != nil {
		t.Fatal(err)
	}
	again, err := createBeside("result")
	if err != nil {
		t.Fatal(err)
	}
	if file.Name() == again.Name() {
		t.Errorf("both are %s", file.Name())
	}
	if got := filepath.Dir(again.Name()); got != "." {
		t.Errorf("made in %s, want the folder of the result", got)
	}
}

// What a workbook says never steers the terminal.
func TestPrintable(t *testing.T) {
	if got, want := printable("a\x1b[2Jb\nc é 床"), "a [2Jb c é 床"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
