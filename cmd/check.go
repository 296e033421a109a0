package cmd

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/exchange"
	"laybill/sheet/in"
	"laybill/sheet/notes"
)

type checkOptions struct {
	input string
	notes string // workbook with the problems marked
	json  string
}

func (a *app) checkCommand() *cobra.Command {
	var options checkOptions
	command := &cobra.Command{
		Use:   "check FILE.xlsx",
		Short: "list everything that is wrong with a job workbook",
		Long: `Reads a job workbook and lists every problem at once, in the order of its sheets,
rows and columns: the cell, what was found, what is expected and what to do.
FILE may be a folder of CSV files, one for each sheet, or - for standard input.
--notes also writes a copy of the workbook, untouched but for a note and a tint
on every cell that a problem names and a sheet Problems with a link to each. On
a sheet the first 2,000 such cells get a note; the sheet Problems lists all.`,
		Example: `  laybill check job.xlsx
  laybill check job.xlsx --notes job-notes.xlsx    the problems in a copy of the workbook
  laybill check job.xlsx --json -                  for other programs
  laybill check - < job.xlsx
  laybill explain cell-unreadable                  what a problem's code means`,
		Args: func(c *cobra.Command, args []string) error {
			if err := cobra.ExactArgs(1)(c, args); err != nil {
				return err
			}
			options.input = args[0]
			return options.checkOutputs()
		},
		RunE: func(c *cobra.Command, _ []string) error { return a.check(c.Context(), options) },
	}
	flags := command.Flags()
	flags.StringVar(&options.notes, "notes", "", "also write a marked copy of the workbook to `COPY.xlsx`")
	flags.StringVar(&options.json, "json", "", "also write the problems as JSON to `FILE.json`")
	return command
}

// checkOutputs makes sure that no output takes another's place or the input's.
func (o *checkOptions) checkOutputs() error {
	switch {
	case o.notes == stream:
		return fmt.Errorf("--notes takes a file: standard output has the list")
	case o.notes != "" && o.json != "" && sameFile(o.notes, o.json):
		return fmt.Errorf("the copy and the JSON file must have different names")
	}
	if o.notes != "" {
		if err := workbookName(o.notes); err != nil {
			return err
		}
	}
	for _, path := range []string{o.notes, o.json} {
		if path != "" && path != stream && sameFile(path, o.input) {
			return fmt.Errorf("%s is the job workbook; it is never overwritten", path)
		}
	}
	return nil
}

func (a *app) check(ctx context.Context, o checkOptions) error {
	b, err := a.openBook(ctx, o.input)
	if err != nil {
		return err
	}
	j, problems := in.Read(b)
	if !problems.HasErrors() {
		problems.Append(estimate.Review(j))
		problems = problems.Sorted(j.Sheets)
	}
	a.progress.Clear()
	if err := a.writeProblems(ctx, o, b, problems); err != nil {
		return err
	}
	return a.tellProblems(o, j, problems)
}

// writeProblems writes the files that check was asked for.
func (a *app) writeProblems(ctx context.Context, o checkOptions, b *book.Book, problems problem.List) error {
	outputs := &outputs{stdout: a.stdout}
	defer outputs.discard()
	if o.notes != "" {
		err := outputs.write(ctx, o.notes, func(w io.Writer) error { return notes.Write(w, b, problems) })
		var unfit *notes.Unfit
		if errors.As(err, &unfit) {
			return fileError{o.input, unfit}
		}
		if err != nil {
			return err
		}
	}
	if o.json != "" {
		if err := outputs.write(ctx, o.json, func(w io.Writer) error { return exchange.WriteProblems(w, problems) }); err != nil {
			return err
		}
	}
	return outputs.commit(ctx)
}

// tellProblems prints the problems and counts them. Where standard output
// holds the JSON, the list goes to standard error.
func (a *app) tellProblems(o checkOptions, j *job.Job, problems problem.List) error {
	to := a.stdout
	if o.json == stream {
		to = a.stderr
	}
	printProblems(to, problems)
	line := fmt.Sprintf("%s: %s", o.input, tally(problems))
	if !problems.HasErrors() {
		line += " in " + contents(j)
	}
	_, _ = fmt.Fprintln(to, line)
	for _, path := range []string{o.notes, o.json} {
		if path != "" && path != stream {
			_, _ = fmt.Fprintf(to, "Written: %s\n", path)
		}
	}
	if problems.HasErrors() {
		return errNotAccepted
	}
	return nil
}

// contents counts what a job holds.
func contents(j *job.Job) string {
	types := map[string]bool{}
	for _, room := range j.Rooms {
		types[room.Type] = true
	}
	var parts []string
	if len(j.Rooms) > 0 || len(j.Repairs) == 0 {
		parts = append(parts, fmt.Sprintf("%s of %s", plural(len(j.Rooms), "room"), plural(len(types), "apartment type")))
	}
	if n := len(j.Repairs); n > 0 {
		parts = append(parts, plural(n, "repair"))
	}
	parts = append(parts, plural(len(j.Apartments), "apartment"), plural(len(j.BuildUps), "build-up"), plural(len(j.Products), "product"))
	return strings.Join(parts, ", ")
}
