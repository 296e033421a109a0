package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// Ambiguous says that a text can be read as two different lengths. Each
// reading is written so that it has only one.
type Ambiguous struct {
	Text     string
	Readings [2]string
}

func (e Ambiguous) Error() string {
	return fmt.Sprintf("%q can mean %s or %s", e.Text, e.Readings[0], e.Readings[1])
}

// Unreadable says that a text is no length, and why.
type Unreadable struct{ Text, Reason string }

func (e Unreadable) Error() string { return fmt.Sprintf("%q is no length: %s", e.Text, e.Reason) }

// ParseLength reads a length as people write it in a cell: a plain number in
// the given unit, a number with a unit (3.82 m, 3,82 m, 382 cm, 12.5 ft), metres
// and centimetres (3 m 82), feet and inches (12' 6 1/2", 12′ 6½″, 12'6,
// 12 ft 6 1/2 in, 12'-6"). Full-width digits and no-break spaces are read too.
//
// Decimals are exact where 1/320 mm holds them, else rounded half away from
// zero. A text with two readings, such as 12-6 1/2 or 1,234, is an Ambiguous
// error; any other text, and a length beyond Largest, is an Unreadable error.
func ParseLength(text string, unit Unit) (Length, error) {
	p := reading{text: text, unit: unit}
	if err := p.split(); err != nil {
		return 0, err
	}
	parts, err := p.parts()
	if err != nil {
		return 0, err
	}
	if err := p.checkParts(parts); err != nil {
		return 0, err
	}
	return p.total(parts)
}

// reading is one text on its way to a length.
type reading struct {
	text     string
	unit     Unit
	clean    string
	tokens   []token
	negative bool
}

// part is a number with its unit, such as the 12 ft of 12 ft 6 in.
type part struct {
	value    *big.Rat
	unit     Unit
	hasUnit  bool
	number   string // as written, of a plain number
	fraction bool   // has a fraction or decimals
}

func (p *reading) unreadable(format string, values ...any) error {
	return Unreadable{p.text, fmt.Sprintf(format, values...)}
}

func (p *reading) ambiguous(first, second string) error {
	sign := ""
	if p.negative {
		sign = "-"
	}
	return Ambiguous{p.text, [2]string{sign + first, sign + second}}
}

// split cleans the text, takes off the sign and cuts the rest into tokens.
func (p *reading) split() error {
	const longest = 60
	if len(p.text) > 4*longest {
		return p.unreadable("it is too long")
	}
	p.clean = cleaned(p.text)
	if rest, found := strings.CutPrefix(p.clean, "-"); found {
		p.negative, p.clean = true, strings.TrimSpace(rest)
	}
	if p.clean == "" {
		return p.unreadable("it is empty")
	}
	if len(p.clean) > longest {
		return p.unreadable("it is too long")
	}
	if powerAfterUnit.MatchString(p.clean) {
		return p.unreadable("it is an area or a volume")
	}
	tokens, odd := tokenise(p.clean)
	if odd != "" {
		return p.unreadable("%q is neither a number nor a unit", odd)
	}
	p.tokens = tokens
	return nil
}

// powerAfterUnit finds m2, ft3 and the like.
var powerAfterUnit = regexp.MustCompile(`[a-z][23]$`)

// parts groups the tokens into numbers with the unit that follows each.
func (p *reading) parts() ([]part, error) {
	var parts []part
	for rest := p.tokens; len(rest) > 0; {
		end := 0
		for end < len(rest) && rest[end].kind != unitToken {
			end++
		}
		numbers := rest[:end]
		if len(parts) > 0 && parts[len(parts)-1].unit == Ft && end > 0 && numbers[0].kind == dashToken {
			numbers = numbers[1:] // the dash of 12'-6"
		}
		next := part{unit: p.unit}
		if end < len(rest) {
			next.unit, next.hasUnit = rest[end].unit, true
			end++
		}
		if err := p.value(&next, numbers, len(parts) == 0); err != nil {
			return nil, err
		}
		parts = append(parts, next)
		rest = rest[end:]
	}
	return parts, nil
}

// value reads the numbers that stand before one unit into a part. The first
// part may hide feet before its inches, or a thousands space.
func (p *reading) value(into *part, numbers []token, first bool) error {
	bare := !into.hasUnit
	switch kinds(numbers) {
	case "n":
		return p.number(into, numbers[0])
	case "f":
		return p.mixed(into, nil, numbers[0])
	case "nf":
		return p.mixed(into, &numbers[0], numbers[1])
	case "n-f":
		if bare && first {
			return p.feetOrWhole(numbers[0], numbers[2])
		}
		return p.mixed(into, &numbers[0], numbers[2])
	case "n-n", "n-nf", "n-n-f":
		if first {
			return p.feetOrDifference(into.unit, numbers)
		}
	case "nn", "nnn", "nnf":
		if first {
			return p.spacedNumbers(into, numbers)
		}
	case "":
		return p.unreadable("a unit stands without a number")
	}
	return p.unreadable("its numbers do not make one length")
}

// number reads a plain number. A single comma before three digits may be a
// decimal comma or mark thousands; beside other numbers that is too doubtful to
// offer readings.
func (p *reading) number(into *part, written token) error {
	decimal, thousands, ok := plainNumber(written.text)
	if !ok {
		return p.unreadable("%q is no number", written.text)
	}
	switch {
	case thousands != "" && len(p.tokens) > 2:
		return p.unreadable("%q can mean %s or %s", written.text, decimal, thousands)
	case thousands != "":
		return p.ambiguous(p.with(written, decimal), p.with(written, thousands))
	}
	into.value, _ = new(big.Rat).SetString(decimal)
	into.number, into.fraction = written.text, strings.Contains(decimal, ".")
	return nil
}

// with is the text with one number written otherwise, and its unit.
func (p *reading) with(old token, number string) string {
	text := p.clean[:old.at] + number + p.clean[old.at+len(old.text):]
	if len(p.tokens) == 1 {
		text += " " + p.unit.String()
	}
	return text
}

// mixed reads a fraction with or without a whole number before it.
func (p *reading) mixed(into *part, whole *token, fraction token) error {
	above, below, _ := strings.Cut(fraction.text, "/")
	value := new(big.Rat).SetFrac(wholeNumber(above), wholeNumber(below))
	if whole != nil {
		if !isDigits(whole.text) {
			return p.unreadable("a fraction follows %q, which is no whole number", whole.text)
		}
		if value.Cmp(oneWhole) >= 0 {
			return p.unreadable("%s is not less than one", fraction.text)
		}
		value.Add(value, new(big.Rat).SetInt(wholeNumber(whole.text)))
	}
	into.value, into.fraction = value, true
	return nil
}

// wholeNumber is the value of some digits.
func wholeNumber(digits string) *big.Int {
	const ten = 10
	number, _ := new(big.Int).SetString(digits, ten)
	return number
}

var oneWhole = big.NewRat(1, 1)

// feetOrWhole is the doubt about 12-1/2: feet and a part of an inch, or a
// whole number and its fraction.
func (p *reading) feetOrWhole(whole, fraction token) error {
	return p.ambiguous(
		fmt.Sprintf(`%s' 0 %s"`, whole.text, fraction.text),
		fmt.Sprintf("%s %s %s", whole.text, fraction.text, p.unit))
}

// feetOrDifference is the doubt about 12-6 and 12-6 1/2: feet and inches, or
// one number less the other.
func (p *reading) feetOrDifference(unit Unit, numbers []token) error {
	if p.negative {
		return p.unreadable("its numbers do not make one length")
	}
	small := part{}
	if len(numbers) == 3 {
		if err := p.number(&small, numbers[2]); err != nil {
			return err
		}
	} else if err := p.mixed(&small, &numbers[2], numbers[len(numbers)-1]); err != nil {
		return err
	}
	large := part{}
	if err := p.number(&large, numbers[0]); err != nil {
		return err
	}
	inches := numbers[2].text
	if len(numbers) > 3 {
		inches += " " + numbers[len(numbers)-1].text
	}
	difference := new(big.Rat).Sub(large.value, small.value)
	return p.ambiguous(
		fmt.Sprintf(`%s' %s"`, numbers[0].text, inches),
		fmt.Sprintf("%s %s", decimalText(difference), unit))
}

// spacedNumbers reads 12 345 as digits in threes where the unit is small, and
// doubts it elsewhere: 12 6 may be feet and inches.
func (p *reading) spacedNumbers(into *part, numbers []token) error {
	threes := len(numbers[0].text) <= 3 && isDigits(numbers[0].text) && numbers[0].text[0] != '0'
	joined := numbers[0].text
	for _, next := range numbers[1:] {
		whole, _, _ := strings.Cut(next.text, ".")
		threes = threes && next.kind == numberToken && len(whole) == 3 && isDigits(strings.Replace(next.text, ".", "", 1))
		joined += next.text
	}
	switch {
	case threes && (into.unit == MM || into.unit == CM):
		return p.number(into, token{kind: numberToken, text: joined})
	case threes && into.unit == M && len(numbers) == 2 && isDigits(joined):
		return p.ambiguous(numbers[0].text+"."+numbers[1].text+" m", joined+" m")
	case into.unit.Imperial() && isDigits(numbers[0].text) && isDigits(numbers[1].text) && numbers[len(numbers)-1].kind == fractionToken:
		return p.ambiguous(
			fmt.Sprintf(`%s' %s %s"`, numbers[0].text, numbers[1].text, numbers[2].text),
			fmt.Sprintf("%s%s %s %s", numbers[0].text, numbers[1].text, numbers[2].text, into.unit))
	case into.unit.Imperial() && len(numbers) == 2 && isDigits(joined):
		return p.ambiguous(
			fmt.Sprintf(`%s' %s"`, numbers[0].text, numbers[1].text),
			fmt.Sprintf("%s %s", joined, into.unit))
	}
	return p.unreadable("its numbers do not make one length")
}

// checkParts sees that the parts run from large units to small ones of one
// system, whole but for the last, each less than one of the unit before it;
// it gives a last number without a unit the unit that follows the one before.
func (p *reading) checkParts(parts []part) error {
	for i := 1; i < len(parts); i++ {
		before, after := parts[i-1], &parts[i]
		if !after.hasUnit {
			if err := p.impliedUnit(before, after); err != nil {
				return err
			}
		}
		switch {
		case before.fraction:
			return p.unreadable("only the last number may have a fraction")
		case before.unit.Imperial() != after.unit.Imperial():
			return p.unreadable("it mixes %s and %s", before.unit, after.unit)
		case before.unit.Length() <= after.unit.Length():
			return p.unreadable("%s cannot follow %s", after.unit, before.unit)
		case size(*after).Cmp(new(big.Rat).SetInt64(int64(before.unit.Length()))) >= 0:
			return p.unreadable("the part in %s is not less than one %s", after.unit, before.unit)
		}
	}
	return nil
}

// impliedUnit is inches after feet, centimetres for two digits after metres
// and millimetres for three.
func (p *reading) impliedUnit(before part, after *part) error {
	switch {
	case before.unit == Ft:
		after.unit = In
	case before.unit == M && isDigits(after.number) && len(after.number) == 2:
		after.unit = CM
	case before.unit == M && isDigits(after.number) && len(after.number) == 3:
		after.unit = MM
	case before.unit == M && isDigits(after.number) && len(after.number) == 1 && before.value.IsInt():
		metres := before.value.Num().String()
		return p.ambiguous(metres+".0"+after.number+" m", metres+"."+after.number+" m")
	default:
		return p.unreadable("the last number has no unit")
	}
	return nil
}

// size is a part in units of 1/320 mm.
func size(p part) *big.Rat {
	return new(big.Rat).Mul(p.value, new(big.Rat).SetInt64(int64(p.unit.Length())))
}

// total adds the parts up and rounds once, half away from zero.
func (p *reading) total(parts []part) (Length, error) {
	sum := new(big.Rat)
	for _, each := range parts {
		sum.Add(sum, size(each))
	}
	doubled := new(big.Int).Lsh(sum.Num(), 1)
	doubled.Add(doubled, sum.Denom())
	rounded := doubled.Quo(doubled, new(big.Int).Lsh(sum.Denom(), 1))
	if rounded.Cmp(big.NewInt(int64(Largest))) > 0 {
		return 0, p.unreadable("it is more than 1000 km")
	}
	length := Length(rounded.Int64())
	if p.negative {
		length = -length
	}
	return length, nil
}

// decimalText writes a number with as many decimals as a reading needs.
func decimalText(number *big.Rat) string {
	text := number.FloatString(6)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}
