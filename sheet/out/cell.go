package out

import (
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/money"
)

// cell is what one cell holds. A cell with a formula holds its exact result as
// well, so that a reader that does not calculate shows the same.
type cell struct {
	value   any // string, float64 or int; nil leaves the cell blank
	formula string
	style   style
}

// blank tells a cell that the file need not hold.
func (c cell) blank() bool { return c.value == nil && c.formula == "" && c.style == plainStyle }

// in is the cell in another style.
func (c cell) in(s style) cell {
	s.format, c.style = c.style.format, s
	return c
}

// input marks the cell as one that may be changed.
func (c cell) input() cell {
	c.style = c.style.input()
	return c
}

// total marks the cell as a sum.
func (c cell) total() cell {
	c.style = c.style.total()
	return c
}

func (c cell) strong() cell {
	c.style.bold = true
	return c
}

// orBlank is the cell, or a blank one that is looked at as a number.
func (c cell) orBlank(shown bool) cell {
	if !shown {
		c.value, c.style.format = 0, ";;"
	}
	return c
}

// isText tells whether the cell holds words, or nothing.
func (c cell) isText() bool {
	_, words := c.value.(string)
	return words || c.value == nil
}

// indented keeps a text or a date off the number in the column before it.
func (c cell) indented() cell {
	if c.isText() && c.style.align == natural || c.style.format == dateFormat {
		c.style.align, c.style.indent = left, true
	}
	return c
}

// from gives the cell the formula that its value follows from.
func (c cell) from(formula string) cell {
	c.formula = formula
	return c
}

// longest is the most letters a cell can hold.
const longest = 32767

// text is a text as it stands. It is never read as a formula.
func text(s string) cell {
	if s == "" {
		return cell{}
	}
	s = printable(s)
	if runes := []rune(s); len(runes) > longest/2 {
		s = string(runes[:longest/2]) + " ..."
	}
	return cell{value: s}
}

// printable drops the control characters that no workbook may hold.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, s)
}

func count(n int) cell { return cell{value: n, style: style{format: wholeFormat}} }

// plainCount is a whole number without grouped thousands: a number that names
// something.
func plainCount(n int) cell { return cell{value: n, style: style{format: "0"}} }

// number is a decimal shown with a format.
func number(d decimal.Decimal, format string) cell {
	return cell{value: float(d), style: style{format: format}}
}

// amount is an amount of money with all places of its minor unit.
func amount(a money.Amount) cell {
	return number(a.Decimal(), decimalFormat(a.Currency().Minor))
}

// percent is a per cent, held as a fraction so that formulas read naturally.
func percent(d decimal.Decimal) cell { return number(d.Shift(-2), percentFormat) }

// day is a date, blank when there is none.
func day(t time.Time) cell {
	if t.IsZero() {
		return cell{}
	}
	return cell{value: serial(t), style: style{format: dateFormat, align: left}}
}

// serial is the number that a workbook holds for a date: days since the end of
// 1899, so that 1900-03-01 is 61.
func serial(t time.Time) int {
	epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	date := time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
	return int(date.Sub(epoch) / (24 * time.Hour))
}

// float is the decimal as the number of the file, exact to 15 digits.
func float(d decimal.Decimal) float64 {
	f, _ := strconv.ParseFloat(d.String(), 64) // a decimal always reads as a number
	return f
}
