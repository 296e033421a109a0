package cmd

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/sheet/in"
)

func (a *app) checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE.xlsx",
		Short: "list everything that is wrong with a job workbook",
		Long: `Reads a job workbook and lists every problem at once, in the order of its sheets,
rows and columns: the cell, what was found, what is expected and what to do.
Nothing is written. FILE may be a folder of CSV files, one for each sheet, or -
for standard input.`,
		Example: `  laybill check job.xlsx
  laybill check - < job.xlsx
  laybill explain cell-unreadable    what a problem's code means`,
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error { return a.check(c.Context(), args[0]) },
	}
}

func (a *app) check(ctx context.Context, path string) error {
	b, err := a.openBook(ctx, path)
	if err != nil {
		return err
	}
	j, problems := in.Read(b)
	if !problems.HasErrors() {
		problems.Append(estimate.Review(j))
		problems = problems.Sorted(j.Sheets)
	}
	a.progress.Clear()
	if err := ctx.Err(); err != nil {
		return err
	}
	printProblems(a.stdout, problems)
	if problems.HasErrors() {
		a.print(fmt.Sprintf("%s: %s\n", path, tally(problems)))
		return errNotAccepted
	}
	a.print(fmt.Sprintf("%s: %s in %s\n", path, tally(problems), contents(j)))
	return nil
}

// contents counts what a job holds.
func contents(j *job.Job) string {
	types := map[string]bool{}
	for _, room := range j.Rooms {
		types[room.Type] = true
	}
	return fmt.Sprintf("%s of %s, %s, %s, %s", plural(len(j.Rooms), "room"), plural(len(types), "apartment type"),
		plural(len(j.Apartments), "apartment"), plural(len(j.BuildUps), "build-up"), plural(len(j.Products), "product"))
}
