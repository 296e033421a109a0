//go:build unix

package cmd

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"syscall"
	"testing"
	"text/tabwriter"
	"time"

	"laybill/estimate"
	"laybill/estimate/proof"
	"laybill/sheet/book"
	"laybill/sheet/booklet"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
	"laybill/sheet/exchange"
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/sheet/out"
)

// BenchmarkStages prices 1,000 apartments of five rooms stage by stage and
// prints what each takes, on all processors together and by the clock.
func BenchmarkStages(b *testing.B) {
	var workbook bytes.Buffer
	if err := form.Write(&workbook, thousandApartments(1000, 20)); err != nil {
		b.Fatal(err)
	}
	var split stages
	for b.Loop() {
		split.price(b, workbook.Bytes())
	}
	fmt.Printf("\n%s", split.table(b.N)) // a benchmark's log is cut after ten lines
}

// stages are the times of the stages so far.
type stages struct {
	names  []string
	spent  map[string]times
	stage  string
	before times
}

type times struct{ clock, processors time.Duration }

// now is the time by the clock since the program began, and that of all its
// processors.
func now() times {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic(err)
	}
	return times{time.Since(programBegan), time.Duration(used.Utime.Nano() + used.Stime.Nano())}
}

var programBegan = time.Now()

// begin ends the stage before and begins the next; "" begins none.
func (s *stages) begin(stage string) {
	if stage == s.stage {
		return
	}
	at := now()
	if s.stage != "" {
		if s.spent == nil {
			s.spent = map[string]times{}
		}
		sum, known := s.spent[s.stage]
		if !known {
			s.names = append(s.names, s.stage)
		}
		s.spent[s.stage] = times{sum.clock + at.clock - s.before.clock, sum.processors + at.processors - s.before.processors}
	}
	s.stage, s.before = stage, at
}

// price does what the command price does, stage by stage.
func (s *stages) price(b *testing.B, workbook []byte) {
	must := func(err error) {
		if err != nil {
			b.Fatal(err)
		}
	}
	s.begin("read")
	opened, err := book.OpenBytes(workbook)
	must(err)
	j, problems := in.Read(opened)
	if problems.HasErrors() {
		b.Fatal(problems)
	}
	s.begin("check")
	r, found, err := estimate.RunWithOptions(context.Background(), j, func(p estimate.Progress) { s.begin(p.Stage) })
	must(err)
	r.Problems = append(problems, found...)
	s.begin("prove")
	file, into := io.Pipe()
	go func() { into.CloseWithError(exchange.WriteResult(into, r)) }()
	report, err := proof.Check(file)
	must(err)
	if !report.OK() {
		b.Fatal("the result does not hold")
	}
	s.begin("workbook")
	must(out.Write(io.Discard, r))
	s.begin("of it the drawings")
	lists := crew.Of(r)
	for _, drawing := range lists.Drawings() {
		draw.PNG(lists.Scene(drawing.Room, 205, 142), 150)
	}
	s.begin("booklet")
	must(booklet.Write(io.Discard, r))
	s.begin("result file")
	must(exchange.WriteResult(io.Discard, r))
	s.begin("")
}

// table is the mean of so many runs.
func (s *stages) table(runs int) string {
	var text strings.Builder
	w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "stage\tprocessor s\tclock s\t")
	for _, name := range s.names {
		spent := s.spent[name]
		fmt.Fprintf(w, "%s\t%.2f\t%.2f\t\n", name, spent.processors.Seconds()/float64(runs), spent.clock.Seconds()/float64(runs))
	}
	if err := w.Flush(); err != nil {
		panic(err)
	}
	return text.String()
}
