package cmd

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"

	"laybill/cmd/internal/term"
	"laybill/estimate"
	"laybill/estimate/money"
	"laybill/estimate/revision"
	"laybill/sheet/exchange"
	"laybill/sheet/in"
	"laybill/sheet/out"
)

type compareOptions struct {
	workbook string
	bid      string
}

func (a *app) compareCommand() *cobra.Command {
	var options compareOptions
	command := &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "say what changed between two revisions of a job",
		Long: `Compares two revisions of a job: rooms, products, work and other costs that were
added, removed or changed, and what that does to material, labour, other costs
and price, to the cent. OLD and NEW are job workbooks, which are priced, or
result files that price --json wrote.`,
		Example: `  laybill compare job-a.xlsx job-b.xlsx
  laybill compare job-a.json job-b.xlsx -o changes.xlsx
  laybill compare job-a.json job-b.json --bid changes.xlsx   prices and rooms only, for the client`,
		Args: cobra.ExactArgs(2),
		RunE: func(c *cobra.Command, args []string) error { return a.compare(c.Context(), args, options) },
	}
	command.Flags().StringVarP(&options.workbook, "output", "o", "", "write the changes to `CHANGES.xlsx`")
	command.Flags().StringVar(&options.bid, "bid", "", "write what the client may see of them to `BID.xlsx`")
	return command
}

func (a *app) compare(ctx context.Context, paths []string, o compareOptions) error {
	if err := o.check(paths); err != nil {
		return usageError{err}
	}
	before, err := a.revision(ctx, paths[0])
	if err != nil {
		return err
	}
	after, err := a.revision(ctx, paths[1])
	if err != nil {
		return err
	}
	changes, err := revision.Compare(before, after)
	if err != nil {
		a.say("%s and %s cannot be compared: %v.", paths[0], paths[1], err)
		return errNotAccepted
	}
	if err := a.writeCompared(ctx, o, changes); err != nil {
		return err
	}
	a.progress.Clear()
	writeChanges(a.stdout, changes)
	for _, path := range []string{o.workbook, o.bid} {
		if path != "" {
			_, _ = fmt.Fprintf(a.stdout, "Written: %s\n", path)
		}
	}
	return nil
}

func (a *app) writeCompared(ctx context.Context, o compareOptions, changes revision.Changes) error {
	outputs := &outputs{stdout: a.stdout}
	defer outputs.discard()
	for _, file := range []struct {
		path  string
		write func(io.Writer, revision.Changes) error
	}{{o.workbook, out.WriteChanges}, {o.bid, out.WriteChangesForClient}} {
		if file.path == "" {
			continue
		}
		if err := outputs.write(ctx, file.path, func(w io.Writer) error { return file.write(w, changes) }); err != nil {
			return err
		}
	}
	return outputs.commit(ctx)
}

// check makes sure that no output takes another's place or an input's.
func (o compareOptions) check(inputs []string) error {
	taken := slices.Clone(inputs)
	for _, path := range []string{o.workbook, o.bid} {
		if path == "" {
			continue
		}
		if err := workbookName(path); err != nil {
			return err
		}
		if slices.ContainsFunc(taken, func(other string) bool { return sameFile(path, other) }) {
			return fmt.Errorf("%s stands twice in the command line; it is not written over", path)
		}
		taken = append(taken, path)
	}
	return nil
}

// revision reads a result file, or prices a job workbook into one.
func (a *app) revision(ctx context.Context, path string) (*revision.Revision, error) {
	if strings.EqualFold(filepath.Ext(path), ".json") {
		content, err := os.ReadFile(path)
		if err != nil {
			return nil, cannotRead(path, err)
		}
		r, err := revision.Read(bytes.NewReader(content))
		return r, inFile(path, err)
	}
	b, err := a.openBook(ctx, path)
	if err != nil {
		return nil, err
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		return nil, a.refuse(priceOptions{input: path}, problems)
	}
	result, found, err := estimate.Run(ctx, j, a.watch)
	if err != nil {
		return nil, err
	}
	if found.HasErrors() {
		return nil, a.refuse(priceOptions{input: path}, found)
	}
	var file bytes.Buffer
	if err := exchange.WriteResult(&file, result); err != nil {
		return nil, err
	}
	return revision.Read(&file)
}

// writeChanges prints the ladder before and after, and the first of the lines
// that changed.
func writeChanges(w io.Writer, c revision.Changes) {
	places := int32(2)
	if currency, err := money.Lookup(c.New.Job.Currency); err == nil {
		places = currency.Minor
	}
	shown := func(d decimal.Decimal) string { return term.Group(d.StringFixed(places)) }
	line := func(format string, args ...any) { _, _ = fmt.Fprintf(w, format+"\n", args...) }
	line("%s", printable(c.New.Job.Name))
	steps := term.NewTable("", "Old "+c.New.Job.Currency, "New "+c.New.Job.Currency, "Difference")
	for _, step := range c.Steps {
		steps.Row(step.Name, shown(step.Old), shown(step.New), shown(step.Difference()))
	}
	hours := func(d decimal.Decimal) string { return term.Group(d.StringFixed(revision.HourPlaces)) }
	steps.Row("Hours of work", hours(c.Hours.Old), hours(c.Hours.New), hours(c.Hours.Difference()))
	steps.Write(w)
	for _, part := range []struct {
		name  string
		table revision.Table
	}{{"Rooms", c.Rooms}, {"Products", c.Products}, {"Work", c.Labour}, {"Other costs", c.Other}} {
		changed := part.table.Changed()
		line("")
		line("%s: %d added, removed or changed, %d as they were", part.name, len(changed), len(part.table.Lines)-len(changed))
		if len(changed) == 0 {
			continue
		}
		table := term.NewTable("", "Old", "New", "Old amount", "New amount", "Difference")
		for _, l := range changed[:min(mostShown, len(changed))] {
			table.Row(l.Kind.String()+" "+printable(l.Name), l.Quantity.Old.String(), l.Quantity.New.String(), shown(l.Amount.Old), shown(l.Amount.New), shown(l.Amount.Difference()))
		}
		table.Write(w)
		if more := len(changed) - mostShown; more > 0 {
			line("  %d more; -o CHANGES.xlsx lists them", more)
		}
	}
}
