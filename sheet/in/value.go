package in

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"golang.org/x/text/width"

	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/sheet/book"
)

// input is a filled cell on its way to a value, with what a plain number in
// it means.
type input struct {
	kind     book.Kind
	text     string
	format   book.Format
	length   measure.Unit
	area     measure.AreaUnit
	currency money.Currency
}

// fault is why a cell has no value.
type fault struct {
	code problem.Code
	want string // what is accepted, "" for what the kind accepts
	fix  string
}

func unreadable(fix string) *fault { return &fault{code: problem.CellUnreadable, fix: fix} }

func ambiguous(first, second string) *fault {
	return &fault{code: problem.CellAmbiguous, want: fmt.Sprintf("either %s or %s", first, second), fix: "write it so that it can be read in one way only"}
}

func outOfRange(want string) *fault {
	return &fault{code: problem.ValueOutOfRange, want: want, fix: "correct the number"}
}

// asText is a cell where a text is expected: a number is its digits.
func asText(in input) (string, *fault) {
	return strings.TrimSpace(strings.Map(plainSpace, in.text)), nil
}

// plainSpace turns the spaces that only a printer tells from others into
// plain ones.
func plainSpace(r rune) rune {
	switch r {
	case '\u00a0', '\u202f', '\u2009', '\u2007':
		return ' '
	}
	return r
}

// asNumber reads a decimal. Decimals of a numeric cell are exact; a text is
// read as parseNumber says.
func asNumber(in input) (decimal.Decimal, *fault) {
	switch in.kind {
	case book.Number:
		return numberCell(in)
	case book.Text:
		return parseNumber(in.text)
	case book.Date, book.Time:
		return decimal.Zero, unreadable("the spreadsheet took it for a date or time: format the cell as a number and write the value again")
	}
	return decimal.Zero, unreadable("write a number")
}

// numberCell is the decimal of a numeric cell. Numbers beyond 10^18 are no
// quantity of anything here, and their sums would cost without bound.
func numberCell(in input) (decimal.Decimal, *fault) {
	if strings.Contains(in.text, "E") {
		return decimal.Zero, outOfRange("a number below 10^18")
	}
	d, err := decimal.NewFromString(in.text)
	if err != nil {
		return decimal.Zero, unreadable("write a number")
	}
	return checkSize(d)
}

var sizeLimit = decimal.New(1, 18)

func checkSize(d decimal.Decimal) (decimal.Decimal, *fault) {
	if d.Abs().Cmp(sizeLimit) >= 0 {
		return decimal.Zero, outOfRange("a number below 10^18")
	}
	return d, nil
}

// parseNumber reads a number that was typed as text: 1234.5, 1,234.50,
// 1.234,50, 1 234,50, 1'234.50. With one mark alone before exactly three
// digits (1,234) it can be read in two ways, and is refused as such.
func parseNumber(text string) (decimal.Decimal, *fault) {
	digits := strings.Map(plainSpace, width.Narrow.String(strings.TrimSpace(text)))
	digits = strings.TrimSpace(strings.ReplaceAll(digits, "−", "-"))
	if len(digits) > 40 {
		return decimal.Zero, unreadable("write a number")
	}
	plain, flaw := onePoint(digits)
	if flaw != nil {
		return decimal.Zero, flaw
	}
	d, err := decimal.NewFromString(plain)
	if err != nil {
		return decimal.Zero, unreadable("write a number, such as 1234.5")
	}
	return checkSize(d)
}

// onePoint rewrites a number with a point for decimals and no mark for
// thousands.
func onePoint(s string) (string, *fault) {
	sign := ""
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "+") {
		sign, s = strings.TrimPrefix(s[:1], "+"), s[1:]
	}
	if s == "" || strings.Trim(s, "0123456789.,' ’") != "" {
		return "", unreadable("write a number, such as 1234.5")
	}
	s = strings.NewReplacer("’", "'").Replace(s)
	mark := decimalMark(s)
	whole, fraction := s, ""
	if mark >= 0 {
		whole, fraction = s[:mark], s[mark+1:]
	}
	joined, grouped, ok := ungroup(whole)
	if !ok || strings.Trim(fraction, "0123456789") != "" || joined+fraction == "" {
		return "", unreadable("write a number, such as 1234.5")
	}
	if mark >= 0 && !grouped && len(fraction) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
		return "", ambiguous(sign+whole+"."+fraction, sign+whole+fraction)
	}
	if fraction == "" {
		return sign + joined, nil
	}
	return sign + "0" + joined + "." + fraction, nil
}

// decimalMark is where the point or comma before the decimals stands, -1 when
// there is none: the last mark, unless the same mark stands more than once.
func decimalMark(s string) int {
	mark := strings.LastIndexAny(s, ".,")
	if mark >= 0 && strings.Count(s, s[mark:mark+1]) > 1 {
		return -1
	}
	return mark
}

// ungroup takes the marks out of thousands; ok is false when they do not
// stand before groups of three digits.
func ungroup(whole string) (joined string, grouped, ok bool) {
	mark := strings.IndexAny(whole, ".,' ")
	if mark < 0 {
		return whole, false, true
	}
	groups := strings.Split(whole, whole[mark:mark+1])
	for i, group := range groups {
		if strings.Trim(group, "0123456789") != "" || i > 0 && len(group) != 3 || i == 0 && (len(group) < 1 || len(group) > 3) {
			return "", true, false
		}
	}
	return strings.Join(groups, ""), true, true
}

// asQuantity reads a number that is not negative.
func asQuantity(in input) (decimal.Decimal, *fault) {
	d, flaw := asNumber(in)
	if flaw == nil && d.Sign() < 0 {
		return d, outOfRange("a number of 0 or more")
	}
	return d, flaw
}

// asWhole reads a whole number that is not negative, up to a thousand million.
func asWhole(in input) (int, *fault) { return asWholeUpTo(1_000_000_000)(in) }

// asWholeUpTo reads a whole number from 0 to a most.
func asWholeUpTo(most int64) func(input) (int, *fault) {
	return func(in input) (int, *fault) {
		d, flaw := asQuantity(in)
		switch {
		case flaw != nil:
			return 0, flaw
		case !d.IsInteger():
			return 0, outOfRange("a whole number")
		case d.Cmp(decimal.New(most, 0)) > 0:
			return 0, outOfRange(fmt.Sprintf("a whole number up to %d", most))
		}
		return int(d.IntPart()), nil
	}
}

// asPercent reads per cents: 7.25, 7.25 % and a cell formatted as a
// percentage are all 7.25.
func asPercent(in input) (decimal.Decimal, *fault) {
	if in.kind == book.Text {
		in.text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(width.Narrow.String(in.text)), "%"))
	}
	d, flaw := asQuantity(in)
	if flaw == nil && in.kind == book.Number && in.format.Kind == book.Percent {
		d = d.Shift(2)
	}
	if flaw == nil && d.Cmp(decimal.New(1000, 0)) > 0 {
		return d, outOfRange("a percentage of at most 1000")
	}
	return d, flaw
}

// asPrice reads money with any number of decimals: a unit price.
func asPrice(in input) (decimal.Decimal, *fault) {
	if in.kind == book.Text {
		text, flaw := withoutCurrency(in.text, in.currency)
		if flaw != nil {
			return decimal.Zero, flaw
		}
		in.text = text
	}
	return asQuantity(in)
}

// asAmount reads an amount of money, which is never finer than the currency's
// minor unit.
func asAmount(in input) (decimal.Decimal, *fault) {
	d, flaw := asPrice(in)
	if flaw != nil || in.currency.Code == "" {
		return d, flaw
	}
	if _, ok := in.currency.Exact(d); !ok {
		return d, &fault{code: problem.AmountTooFine, want: fmt.Sprintf("an amount in %s with at most %d decimals", in.currency.Code, in.currency.Minor),
			fix: "round the amount"}
	}
	return d, nil
}

// signs are the marks of currencies and the codes they may stand for.
var signs = map[string]string{
	"€": "EUR", "£": "GBP EGP FKP GIP SHP SSP SYP", "¥": "JPY CNY", "₹": "INR", "₺": "TRY", "₴": "UAH", "₽": "RUB", "₪": "ILS", "₩": "KRW", "₫": "VND",
	"$":  "USD CAD AUD NZD SGD HKD MXN ARS CLP COP BBD BSD BZD BMD BND DOP FJD GYD JMD KYD LRD NAD SBD SRD TTD TWD XCD UYU ZWG",
	"kr": "SEK NOK DKK ISK", "zł": "PLN", "Kč": "CZK", "Fr.": "CHF", "R": "ZAR", "R$": "BRL",
}

// withoutCurrency takes the currency's mark or code off an amount; another
// currency's is a fault.
func withoutCurrency(text string, currency money.Currency) (string, *fault) {
	number := strings.TrimSpace(strings.Map(plainSpace, width.Narrow.String(text)))
	start := strings.IndexFunc(number, isNumberRune)
	end := strings.LastIndexFunc(number, isNumberRune)
	if start < 0 {
		return number, nil
	}
	_, size := utf8.DecodeRuneInString(number[end:])
	mark := strings.TrimSpace(number[:start] + number[end+size:])
	if mark == "" {
		return number, nil
	}
	if !isSignOf(mark, currency.Code) {
		return "", &fault{code: problem.CellUnreadable, want: "an amount in " + currency.Code, fix: "write the amount in the job's currency, without " + quote(mark)}
	}
	return number[start : end+size], nil
}

// isSignOf tells whether a mark can stand for a currency; no mark can, and any
// can while the currency is not known.
func isSignOf(mark, code string) bool {
	return mark == "" || code == "" || strings.EqualFold(mark, code) || strings.Contains(" "+signs[mark]+" ", " "+code+" ")
}

func isNumberRune(r rune) bool { return unicode.IsDigit(r) || r == '-' || r == '−' }

// asLength reads a length that is not negative.
func asLength(in input) (measure.Length, *fault) {
	l, flaw := asCoordinate(in)
	if flaw == nil && l < 0 {
		return 0, outOfRange("a length of 0 or more")
	}
	return l, flaw
}

// asCoordinate reads a length that may be negative.
func asCoordinate(in input) (measure.Length, *fault) {
	switch in.kind {
	case book.Number:
		d, flaw := numberCell(in)
		if flaw != nil {
			return 0, flaw
		}
		unit := in.length
		if in.format.Unit != "" {
			named, ok := measure.ParseUnit(in.format.Unit)
			if !ok {
				return 0, unreadable("format the cell as a plain number, or write the length with its unit")
			}
			unit = named
		}
		if l := measure.FromDecimal(d, unit); l < measure.Largest && l > -measure.Largest {
			return l, nil
		}
		return 0, outOfRange("a length under 1000 km")
	case book.Text:
		return parseLength(in.text, in.length)
	case book.Date, book.Time:
		return 0, unreadable("the spreadsheet took it for a date or time: format the cell as text and write the length again")
	}
	return 0, unreadable("write the length with its unit")
}

func parseLength(text string, unit measure.Unit) (measure.Length, *fault) {
	l, err := measure.ParseLength(text, unit)
	var two measure.Ambiguous
	var none measure.Unreadable
	switch {
	case errors.As(err, &two):
		return 0, ambiguous(two.Readings[0], two.Readings[1])
	case errors.As(err, &none):
		return 0, unreadable(none.Reason + "; write the length with one unit")
	case err != nil:
		return 0, unreadable(err.Error())
	}
	return l, nil
}

// asArea reads an area.
func asArea(in input) (measure.Area, *fault) {
	unit, number := in.area, in
	named := in.format.Unit
	if in.kind == book.Text {
		text := strings.TrimSpace(strings.Map(plainSpace, width.Narrow.String(in.text)))
		cut := strings.IndexFunc(text, func(r rune) bool { return unicode.IsLetter(r) })
		if cut >= 0 {
			named, text = text[cut:], strings.TrimSpace(text[:cut])
		}
		number.text = text
	}
	if named != "" {
		var ok bool
		if unit, ok = measure.ParseAreaUnit(named); !ok {
			return 0, unreadable(fmt.Sprintf("%s is no unit of area; write m2, ft2 or yd2", quote(named)))
		}
	}
	d, flaw := asQuantity(number)
	if flaw != nil {
		return 0, flaw
	}
	if a := measure.AreaFromDecimal(d, unit); a < measure.LargestArea {
		return a, nil
	}
	return 0, outOfRange("an area under 80 km2")
}

// asYesNo reads the words for yes and no.
func asYesNo(in input) (bool, *fault) {
	switch fold(in.text) {
	case "ye", "yes", "y", "true", "x", "1", "ja", "oui", "si", "sim", "on":
		return true, nil
	case "no", "n", "false", "0", "nein", "non", "nao", "off", "none":
		return false, nil
	}
	switch strings.TrimSpace(in.text) {
	case "✓", "✔", "☑", "☒":
		return true, nil
	case "-", "–", "—", "✗", "✘", "☐":
		return false, nil
	}
	return false, &fault{code: problem.ChoiceUnknown, want: "yes or no", fix: "write yes or no"}
}

// asDate reads a day: a date cell, or a text whose day and month cannot be
// taken for one another.
func asDate(in input) (time.Time, *fault) {
	switch in.kind {
	case book.Date:
		day, _, _ := strings.Cut(in.text, "T")
		date, err := time.Parse(time.DateOnly, day)
		if err != nil {
			return time.Time{}, unreadable("there is no such day; write it as 2026-03-31")
		}
		return checkYear(date)
	case book.Number:
		return time.Time{}, unreadable("it is a plain number: format the cell as a date, or write it as 2026-03-31")
	case book.Text:
		return parseDate(strings.Join(strings.Fields(in.text), " "))
	}
	return time.Time{}, unreadable("write the date as 2026-03-31")
}

func parseDate(text string) (time.Time, *fault) {
	for _, layout := range []string{"2006-1-2", "2.1.2006", "2. 1. 2006", "2 January 2006", "2 Jan 2006", "2. January 2006", "January 2, 2006", "Jan 2, 2006", "2-Jan-2006", "2006/1/2"} {
		if date, err := time.Parse(layout, text); err == nil {
			return checkYear(date)
		}
	}
	first, err1 := time.Parse("2/1/2006", strings.ReplaceAll(text, "-", "/"))
	second, err2 := time.Parse("1/2/2006", strings.ReplaceAll(text, "-", "/"))
	switch {
	case err1 == nil && err2 == nil && !first.Equal(second):
		return time.Time{}, ambiguous(first.Format("2 January 2006"), second.Format("2 January 2006"))
	case err1 == nil:
		return checkYear(first)
	case err2 == nil:
		return checkYear(second)
	}
	return time.Time{}, unreadable("write the date as 2026-03-31")
}

func checkYear(date time.Time) (time.Time, *fault) {
	if date.Year() < 1900 || date.Year() > 2200 {
		return time.Time{}, outOfRange("a date from 1900 to 2200")
	}
	return date, nil
}

// asChoice finds the word of a choice; units of choice go by all their names.
func asChoice(choices []string) func(input) (int, *fault) {
	return func(in input) (int, *fault) {
		folded := fold(in.text)
		for i, word := range choices {
			if fold(word) == folded {
				return i, nil
			}
		}
		for i, word := range choices {
			length, isLength := measure.ParseUnit(in.text)
			area, isArea := measure.ParseAreaUnit(in.text)
			if isLength && length.String() == word || isArea && area.String() == word {
				return i, nil
			}
		}
		fix := "choose one of the words"
		if nearest := near(in.text, choices); len(nearest) > 0 {
			fix = "write " + orList(nearest) + ", if that is meant"
		}
		return 0, &fault{code: problem.ChoiceUnknown, want: strings.Join(choices, ", "), fix: fix}
	}
}
