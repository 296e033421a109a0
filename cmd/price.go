package cmd

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/calendar"
	"laybill/sheet/exchange"
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/sheet/letters"
	"laybill/sheet/out"
	"laybill/templates"
)

type priceOptions struct {
	input  string // "" for the demo
	result string
	json   string
	orders string // folder of the order documents
	bid    string
	dates  string // calendar file
	prints printOptions
	strict bool
	demo   bool
}

func (a *app) priceCommand() *cobra.Command {
	var options priceOptions
	command := &cobra.Command{
		Use:   "price FILE.xlsx",
		Short: "lay every floor, order the goods and price the job",
		Long: `Reads a job workbook, lays every floor plank by plank and writes the result
workbook: cut lists, orders, hours, cost, price and margin. RESULT stands beside
FILE under its name with -result added, unless -o says otherwise. When the
workbook has errors nothing is written. FILE may be a folder of CSV files, one
for each sheet, or - for standard input; - after -o, --json, --calendar or --booklet is standard output.
--bid writes what the client sees as a workbook of its own, without cost and
margin. --orders writes the purchase orders for other programs: orders.csv, and a file
each in the OASIS standard UBL 2.4; a folder that holds other orders is refused. --booklet writes what the crew needs as one
document to print, --drawings the laying plan of every room as SVG. --calendar writes
the programme and the deliveries for calendar programs (iCalendar).`,
		Example: `  laybill price job.xlsx                      writes job-result.xlsx
  laybill price job.xlsx -o offer.xlsx
  laybill price job.xlsx --json job.json      also for other programs and for verify
  laybill price job.xlsx --json - | laybill verify -
  laybill price job.xlsx --bid bid.xlsx       the bid alone, for the client
  laybill price job.xlsx --orders orders      the orders as CSV and UBL, into the folder orders
  laybill price job.xlsx --booklet job.pdf    for the crew: a page a room, to print
  laybill price job.xlsx --calendar job.ics   the programme, for a calendar
  laybill price job.xlsx --drawings plans     every room's laying plan, into the folder plans
  laybill price --demo                        the invented demo building, into this folder`,
		Args: func(_ *cobra.Command, args []string) error { return options.takeInput(args) },
		RunE: func(c *cobra.Command, _ []string) error { return a.price(c.Context(), options) },
	}
	flags := command.Flags()
	flags.StringVarP(&options.result, "output", "o", "", "write the result workbook to `RESULT.xlsx`")
	flags.StringVar(&options.json, "json", "", "also write the result as JSON to `FILE.json`")
	flags.StringVar(&options.bid, "bid", "", "also write the bid alone to `BID.xlsx`")
	flags.StringVar(&options.orders, "orders", "", "also write the orders into the folder `DIR`")
	flags.StringVar(&options.dates, "calendar", "", "also write the programme as a calendar to `FILE.ics`")
	options.prints.flags(command)
	flags.BoolVar(&options.strict, "strict", false, "write nothing when a warning stands")
	flags.BoolVar(&options.demo, "demo", false, "price the invented demo building")
	return command
}

// takeInput takes the workbook's name up and chooses the result's.
func (o *priceOptions) takeInput(args []string) error {
	switch {
	case o.demo && len(args) > 0:
		return fmt.Errorf("--demo takes no file")
	case !o.demo && len(args) != 1:
		return fmt.Errorf("price takes one workbook, or --demo")
	case o.demo:
		o.result = orElse(o.result, "demo-result.xlsx")
		return o.checkOutputs()
	}
	o.input = args[0]
	if o.input == stream && o.result == "" {
		return fmt.Errorf("a workbook from standard input needs -o RESULT.xlsx")
	}
	name := strings.TrimSuffix(filepath.Clean(o.input), filepath.Ext(o.input))
	o.result = orElse(o.result, name+"-result.xlsx")
	return o.checkOutputs()
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// files are the single files to be written, "" for one that is not.
func (o *priceOptions) files() []string {
	return []string{o.result, o.bid, o.json, o.dates, o.prints.booklet}
}

// checkOutputs makes sure that no output takes another's place or the input's.
func (o *priceOptions) checkOutputs() error {
	if o.orders == stream {
		return fmt.Errorf("--orders takes a folder: the orders are several files")
	}
	if err := o.prints.check(); err != nil {
		return err
	}
	var taken []string
	for _, path := range o.files() {
		if path == "" {
			continue
		}
		if path != stream && (path == o.result || path == o.bid) {
			if err := workbookName(path); err != nil {
				return err
			}
		}
		if o.input != "" && path != stream && sameFile(path, o.input) {
			return fmt.Errorf("%s is the job workbook; it is never overwritten", path)
		}
		if slices.ContainsFunc(taken, func(other string) bool { return sameFile(path, other) }) {
			return fmt.Errorf("RESULT, BID, the JSON file, the calendar and the booklet must have different names")
		}
		taken = append(taken, path)
	}
	return nil
}

// sameFile tells whether two paths are one file, there or not.
func sameFile(a, b string) bool {
	if filepath.Clean(a) == filepath.Clean(b) {
		return true
	}
	first, err1 := os.Stat(a)
	second, err2 := os.Stat(b)
	return err1 == nil && err2 == nil && os.SameFile(first, second)
}

func (a *app) price(ctx context.Context, o priceOptions) error {
	b, err := a.openJob(ctx, o)
	if err != nil {
		return err
	}
	j, problems := in.Read(b)
	if o.orders != "" {
		problems.Append(exchange.MissingForOrders(j.Settings))
	}
	if o.dates != "" {
		problems.Append(calendar.Missing(j))
	}
	if o.prints.booklet != "" {
		problems.Append(letters.InBooklet(j))
	} else {
		problems.Append(letters.InDrawings(j))
	}
	if problems.HasErrors() {
		return a.refuse(o, problems)
	}
	result, found, err := estimate.RunWithOptions(ctx, j, a.watch)
	if err != nil {
		return err
	}
	problems.Append(found)
	problems = problems.Sorted(j.Sheets)
	if problems.HasErrors() || o.strict && problems.Count(problem.Warning) > 0 {
		return a.refuse(o, problems)
	}
	result.Problems = problems
	if err := a.secondOpinion(result); err != nil {
		return err
	}
	if err := a.writeResult(ctx, o, result); err != nil {
		return err
	}
	return a.summarise(o, result)
}

// openJob opens the workbook, or makes the demo's and opens that.
func (a *app) openJob(ctx context.Context, o priceOptions) (*book.Book, error) {
	if !o.demo {
		return a.openBook(ctx, o.input)
	}
	var workbook bytes.Buffer
	if err := form.Write(&workbook, templates.Demo(templates.Metric)); err != nil {
		return nil, err
	}
	return book.OpenBytes(workbook.Bytes())
}

func (a *app) watch(p estimate.Progress) {
	line := p.Stage
	if p.Total > 0 {
		line = fmt.Sprintf("%s %d of %d", p.Stage, p.Done, p.Total)
	}
	a.progress.Show(line)
}

// refuse prints the problems that stop the run and ends without a result.
func (a *app) refuse(o priceOptions, problems problem.List) error {
	a.progress.Clear()
	stopping := problems.Count(problem.Error)
	if o.strict {
		stopping += problems.Count(problem.Warning)
	}
	a.printFirst(gravestFirst(problems)[:stopping], "laybill check "+o.input+" lists them")
	a.say("Nothing was written: %s.", tally(problems))
	return errNotAccepted
}

// printFirst prints the first of a list of problems and says where the others
// are.
func (a *app) printFirst(list problem.List, elsewhere string) {
	shown := list[:min(mostShown, len(list))]
	printProblems(a.stderr, shown)
	if more := len(list) - len(shown); more > 0 {
		a.say("%d more; %s.", more, elsewhere)
	}
}

func gravestFirst(list problem.List) problem.List {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(p, q problem.Problem) int { return cmp.Compare(p.Severity, q.Severity) })
	return sorted
}

func (a *app) writeResult(ctx context.Context, o priceOptions, result *estimate.Result) error {
	outputs := &outputs{stdout: a.stdout}
	defer outputs.discard()
	for _, file := range []struct {
		path  string
		write func(io.Writer, *estimate.Result) error
	}{{o.result, out.Write}, {o.bid, out.WriteBid}, {o.json, exchange.WriteResult}, {o.dates, calendar.Write}} {
		if file.path == "" {
			continue
		}
		a.progress.Show("writing " + file.path)
		if err := outputs.write(ctx, file.path, func(w io.Writer) error { return file.write(w, result) }); err != nil {
			return err
		}
	}
	if o.orders != "" {
		a.progress.Show("writing orders")
		if err := outputs.writeOrders(ctx, o.orders, result); err != nil {
			return err
		}
	}
	if err := a.writePrints(ctx, outputs, o.prints, result); err != nil {
		return err
	}
	return outputs.commit(ctx)
}

// summarise tells the estimator what came out. Where a stream holds a result,
// the summary goes to standard error.
func (a *app) summarise(o priceOptions, result *estimate.Result) error {
	a.progress.Clear()
	to := a.stdout
	if slices.Contains(o.files(), stream) {
		to = a.stderr
	}
	a.printFirst(gravestFirst(result.Problems), "they are on the result's sheet Problems")
	writeSummary(to, result)
	for _, path := range append(o.files(), o.orders, o.prints.drawings) {
		if path != "" && path != stream {
			_, _ = fmt.Fprintf(to, "Written: %s\n", path)
		}
	}
	if o.demo {
		_, _ = fmt.Fprintln(to, "The job behind it: laybill new demo.xlsx --demo")
	}
	return nil
}

// jobTitle is the name of the job with its number.
func jobTitle(s job.Settings) string {
	if s.Number == "" {
		return s.Name
	}
	return fmt.Sprintf("%s (%s)", s.Name, s.Number)
}
