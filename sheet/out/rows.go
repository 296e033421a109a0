package out

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"laybill/estimate/problem"
)

// rows are the rows of a sheet as the file holds them (ECMA-376 part 1,
// 18.3.1.73 row, 18.3.1.4 c). They are written here, since the library takes
// four times as long.
type rows struct {
	part string // of the package
	full [][]byte
	open []byte
}

const rowsBlock = 1 << 16 // bytes

// add writes a row with a height in points, 0 for the reader's choice, its cells
// with the numbers of their styles. A cell of style 0 is left out.
func (r *rows) add(row int, height float64, cells []cell, styles []int) {
	b := append(strconv.AppendInt(append(r.open, `<row r="`...), int64(row), 10), '"')
	if height > 0 {
		b = append(strconv.AppendFloat(append(b, ` ht="`...), height, 'f', -1, 64), `" customHeight="1"`...)
	}
	b = append(b, '>')
	for i, c := range cells {
		if styles[i] > 0 {
			b = appendCell(b, i+1, row, c, styles[i])
		}
	}
	r.open = append(b, "</row>"...)
	if len(r.open) >= rowsBlock {
		r.full, r.open = append(r.full, r.open), nil
	}
}

// handOver gives all the rows away.
func (r *rows) handOver() [][]byte {
	blocks := append(r.full, r.open)
	r.full, r.open = nil, nil
	return blocks
}

func appendCell(b []byte, col, row int, c cell, style int) []byte {
	b = append(append(b, `<c r="`...), problem.ColumnName(col)...)
	b = append(strconv.AppendInt(b, int64(row), 10), `" s="`...)
	b = append(strconv.AppendInt(b, int64(style), 10), '"')
	words, isText := c.value.(string)
	switch {
	case isText && c.formula == "":
		b = append(b, ` t="inlineStr"><is><t`...)
		if words != strings.TrimSpace(words) {
			b = append(b, ` xml:space="preserve"`...)
		}
		return append(appendText(append(b, '>'), words), "</t></is></c>"...)
	case isText, c.value == nil && c.formula != "":
		b = append(b, ` t="str"`...)
	}
	b = append(b, '>')
	if c.formula != "" {
		b = append(appendEscaped(append(b, "<f>"...), c.formula), "</f>"...)
	}
	switch value := c.value.(type) {
	case string:
		b = append(appendText(append(b, "<v>"...), value), "</v>"...)
	case int:
		b = append(strconv.AppendInt(append(b, "<v>"...), int64(value), 10), "</v>"...)
	case float64:
		b = append(strconv.AppendFloat(append(b, "<v>"...), value, 'f', -1, 64), "</v>"...)
	}
	return append(b, "</c>"...)
}

// appendText writes a text. In one that looks like a character written by its
// number, _x0041_, the first line is written by its own (18.4.12 t, ST_Xstring).
func appendText(b []byte, s string) []byte {
	for at := strings.Index(s, "_x"); at >= 0; at = strings.Index(s, "_x") {
		b, s = appendEscaped(b, s[:at]), s[at:]
		if numbered(s) {
			b = append(b, "_x005F"...)
		}
		b, s = append(b, "_x"...), s[2:]
	}
	return appendEscaped(b, s)
}

// numbered tells a text that begins with a character written by its number.
func numbered(s string) bool {
	const length = len("_x0041_")
	if len(s) < length || s[length-1] != '_' {
		return false
	}
	_, err := strconv.ParseUint(s[2:length-1], 16, 32)
	return err == nil
}

// appendEscaped writes a text with the marks that stand for others in XML.
func appendEscaped(b []byte, s string) []byte {
	for _, r := range s {
		switch r {
		case '<':
			b = append(b, "&lt;"...)
		case '>':
			b = append(b, "&gt;"...)
		case '&':
			b = append(b, "&amp;"...)
		case '\r':
			b = append(b, "&#xD;"...)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return b
}
