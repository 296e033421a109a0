package in

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
	"laybill/sheet/book"
)

// Limits on calculating formulas that a program stored without their values.
const (
	mostFormulas   = 10_000
	longestFormula = 2_000
	largestToLoad  = 32 << 20 // bytes of the file
)

// calculator works out formulas that have no stored value. The library loads
// the workbook a second time, when the first such formula is met.
type calculator struct {
	source *book.Book
	file   *excelize.File
	failed error
	done   int
}

// calculate is the value of the formula in a cell.
func (c *calculator) calculate(at problem.Ref, formula string) (value string, err error) {
	if c.file == nil && c.failed == nil {
		c.open()
	}
	c.done++
	switch {
	case c.failed != nil:
		return "", c.failed
	case c.done > mostFormulas || len(formula) > longestFormula:
		return "", fmt.Errorf("there are too many formulas without values, or too long ones")
	}
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("the formula cannot be calculated")
		}
	}()
	return c.file.CalcCellValue(at.Sheet, fmt.Sprintf("%s%d", problem.ColumnName(at.Col), at.Row), excelize.Options{RawCellValue: true})
}

func (c *calculator) open() {
	source := c.source.Source()
	if source == nil || c.source.Size() > largestToLoad {
		c.failed = fmt.Errorf("the workbook is too large to calculate its formulas")
		return
	}
	c.file, c.failed = excelize.OpenReader(source, excelize.Options{RawCellValue: true, UnzipSizeLimit: 512 << 20})
}

func (c *calculator) close() {
	if c.file != nil {
		c.file.Close()
	}
}

// calculated is a formula's cell with its value worked out; when that fails
// the problem is reported and the cell holds an error.
func (r *reader) calculated(at problem.Ref, cell book.Cell) book.Cell {
	if known, ok := r.formulas[at]; ok {
		return known
	}
	value, err := r.calculator.calculate(at, cell.Text)
	result := cell.WithValue(value)
	if err != nil || result.Kind == book.Error {
		r.problems.add("", problem.Problem{Code: problem.FormulaUnknown, At: at, Found: quote("=" + cell.Text),
			Want: "a formula that the spreadsheet has calculated", Fix: "open the workbook in the spreadsheet program and save it, or write the value"})
		result.Kind, result.Text = book.Error, ""
	} else {
		r.problems.add("formula", problem.Problem{Code: problem.FormulaCalculated, At: at, Found: fmt.Sprintf("%s, calculated as %s", quote("="+cell.Text), quote(value)),
			Want: "a formula with its stored value", Fix: "open the workbook in the spreadsheet program and save it, to be sure of the value"})
	}
	r.formulas[at] = result
	return result
}
