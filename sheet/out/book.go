package out

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"laybill/estimate"
	"laybill/sheet/archive"
	"laybill/sheet/crew"
)

// book is the workbook in the making. The first error stays and makes the rest
// do nothing, so that the sheets need not ask.
type book struct {
	file       *excelize.File
	styles     *styleIDs
	names      sheetNames
	rows       map[string]*rows // by sheet
	valuesOnly bool             // no formulas: a workbook that does not hold what they follow from
	result     *estimate.Result
	crew       *crew.Lists
	err        error
}

func newBook(r *estimate.Result) *book {
	file := excelize.NewFile()
	b := &book{file: file, styles: &styleIDs{file: file, ids: map[style]int{}}, names: sheetNames{taken: map[string]bool{}}, rows: map[string]*rows{}, result: r, crew: crew.Of(r)}
	file.SetZipWriter(b.archive)
	b.properties()
	return b
}

func (b *book) keep(err error) {
	if b.err == nil {
		b.err = err
	}
}

// properties describe the job; their dates come from it, never from the clock.
func (b *book) properties() {
	s := b.result.Job.Settings
	p := &excelize.DocProperties{Title: printable(s.Name), Subject: printable(s.Number), Creator: "Laybill", LastModifiedBy: "Laybill", Description: "Estimate of floors, laid piece by piece"}
	if !s.Date.IsZero() {
		p.Created = s.Date.Format("2006-01-02T00:00:00Z")
		p.Modified = p.Created
	}
	b.keep(b.file.SetDocProps(p))
}

// add makes an empty sheet behind the others and returns its name.
func (b *book) add(wanted string) string {
	name := b.names.unique(wanted)
	b.rows[name] = &rows{part: fmt.Sprintf("xl/worksheets/sheet%d.xml", len(b.names.taken))}
	if len(b.names.taken) == 1 {
		b.keep(b.file.SetSheetName("Sheet1", name))
		return name
	}
	_, err := b.file.NewSheet(name)
	b.keep(err)
	return name
}

// addIf makes a sheet that only some jobs have; "" when this one has not.
func (b *book) addIf(wanted bool, name string) string {
	if !wanted {
		return ""
	}
	return b.add(name)
}

// archive is the package in which the sheets get their rows.
func (b *book) archive(w io.Writer) excelize.ZipWriter {
	a := archive.New(w)
	for _, r := range b.rows {
		a.Rows(r.part, r.handOver())
	}
	return a
}

func (b *book) write(w io.Writer) error {
	if b.err != nil {
		return b.err
	}
	buffered := bufio.NewWriterSize(w, 1<<16)
	if err := b.file.Write(buffered); err != nil {
		return err
	}
	return buffered.Flush()
}

func (b *book) styleID(s style) int {
	id, err := b.styles.id(s)
	b.keep(err)
	return id
}

// imperial tells whether the job counts in feet and inches, and its paper is
// Letter rather than A4.
func (b *book) imperial() bool { return b.result.Job.Settings.LengthUnit.Imperial() }

// headerPart is a text for a page's header or footer: an & stands for a
// command there, and all of it together may have 255 letters.
func headerPart(s string, most int) string {
	s = strings.ReplaceAll(strings.ReplaceAll(printable(s), "\n", " "), "&", "&&")
	units := utf16.Encode([]rune(s))
	if len(units) > most {
		s = strings.TrimRight(string(utf16.Decode(units[:most])), "&\uFFFD")
	}
	return s
}
