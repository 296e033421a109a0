package book

import (
	"bytes"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"laybill/estimate/problem"
)

// OpenFolder reads a folder of CSV files as a workbook: every file that ends
// in .csv is a sheet, named like the file, in the order of the names. The
// separator (comma, semicolon, tab or bar), the encoding (UTF-8, UTF-16 with a
// mark, else Windows-1252) and the mark are found in each file. In a file
// separated by commas a plain number with a point is a number; everything
// else is text. An apostrophe that keeps spreadsheets from taking a text for a
// formula ('=, '+, '-, '@) is not part of the text.
func OpenFolder(folder fs.FS) (*Book, error) {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return nil, &Refusal{Reason: IsUnreadable, Detail: err.Error(), Err: err}
	}
	b := &Book{}
	r := &textReader{}
	for _, entry := range entries {
		name := entry.Name()
		if !strings.EqualFold(path.Ext(name), ".csv") || !entry.Type().IsRegular() {
			continue
		}
		if len(b.Sheets) >= maxSheets {
			return nil, tooLarge("", "the folder has more than %d CSV files", maxSheets)
		}
		sheet, err := r.readFile(folder, name)
		if err != nil {
			return nil, err
		}
		b.Sheets = append(b.Sheets, *sheet)
	}
	if len(b.Sheets) == 0 {
		return nil, &Refusal{Reason: IsOther, Detail: "the folder has no CSV files"}
	}
	return b, nil
}

// textReader reads text files into sheets and counts what it has read.
type textReader struct {
	bytes int64
	cells int
}

func (r *textReader) readFile(folder fs.FS, name string) (*Sheet, error) {
	file, err := folder.Open(name)
	if err != nil {
		return nil, &Refusal{Reason: IsUnreadable, Sheet: name, Detail: err.Error(), Err: err}
	}
	defer file.Close()
	raw, err := io.ReadAll(io.LimitReader(file, maxFolder-r.bytes+1))
	if err != nil {
		return nil, &Refusal{Reason: IsUnreadable, Sheet: name, Detail: err.Error(), Err: err}
	}
	if r.bytes += int64(len(raw)); r.bytes > maxFolder {
		return nil, tooLarge(name, "the folder has more than %d MB of CSV files", maxFolder>>20)
	}
	text, guessed := decode(raw)
	if bytes.IndexByte(text, 0) >= 0 {
		return nil, damaged(name, "it holds bytes that no text has")
	}
	sheet := &Sheet{Name: name[:len(name)-len(".csv")], Guessed: guessed}
	return sheet, r.readRecords(text, sheet)
}

// decode turns a file's bytes into UTF-8; guessed tells that nothing in the
// file says how it is encoded.
func decode(raw []byte) (text []byte, guessed bool) {
	if bytes.HasPrefix(raw, []byte("\xff\xfe")) || bytes.HasPrefix(raw, []byte("\xfe\xff")) {
		text, _ = unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder().Bytes(raw)
		return text, false
	}
	raw = bytes.TrimPrefix(raw, []byte("\xef\xbb\xbf"))
	if utf8.Valid(raw) {
		return raw, false
	}
	text, _ = charmap.Windows1252.NewDecoder().Bytes(raw)
	return text, true
}

func (r *textReader) readRecords(text []byte, sheet *Sheet) error {
	mark, text := findSeparator(text)
	records := recordReader{rest: string(text), mark: mark}
	var cells []Cell
	for number := 1; records.rest != ""; number++ {
		cells = cells[:0]
		for col := 1; ; col++ {
			field, quoted, last, ok := records.next()
			if !ok {
				return damaged(sheet.Name, "row %d: the quote of column %s is not closed, or text stands behind it", number, problem.ColumnName(col))
			}
			if field != "" {
				cell := Cell{Col: int32(col), Kind: Text, Text: unguarded(field)}
				if mark == ',' && !quoted && isShortPlain([]byte(field)) {
					cell.Kind = Number
				}
				cells = append(cells, cell)
			}
			if last {
				break
			}
			if col == maxCol {
				return damaged(sheet.Name, "row %d has more than %d cells", number, maxCol)
			}
		}
		if r.cells += len(cells); r.cells > maxTextCells {
			return tooLarge("", "it has more than %d filled cells", maxTextCells)
		}
		if len(cells) > 0 {
			sheet.Rows = append(sheet.Rows, Row{Number: number, Cells: slices.Clone(cells)})
		}
	}
	return nil
}

// unguarded is a text without the apostrophe put before its =, +, - or @.
func unguarded(field string) string {
	if rest, guarded := strings.CutPrefix(field, "'"); guarded {
		if start := strings.TrimLeft(rest, "'"); start != "" && strings.IndexByte("=+-@", start[0]) >= 0 {
			return rest
		}
	}
	return field
}

// recordReader takes text files apart (RFC 4180). Unlike most readers it
// takes a quote inside a field that does not begin with one as it stands, for
// the sake of inches: 12' 6 1/2".
type recordReader struct {
	rest string
	mark byte
}

// next is the next field; last tells that it ends its line. ok is false when
// a quoted field does not end properly.
func (r *recordReader) next() (field string, quoted, last, ok bool) {
	if strings.HasPrefix(r.rest, `"`) {
		if field, ok = r.quoted(); !ok {
			return "", true, true, false
		}
		quoted = true
	} else {
		end := strings.IndexAny(r.rest, string(r.mark)+"\r\n")
		if end < 0 {
			end = len(r.rest)
		}
		field, r.rest = r.rest[:end], r.rest[end:]
	}
	switch {
	case r.rest == "":
		return field, quoted, true, true
	case r.rest[0] == r.mark:
		r.rest = r.rest[1:]
		return field, quoted, false, true
	case strings.HasPrefix(r.rest, "\r\n"):
		r.rest = r.rest[2:]
	case r.rest[0] == '\n' || r.rest[0] == '\r':
		r.rest = r.rest[1:]
	default:
		return "", true, true, false
	}
	return field, quoted, true, true
}

func (r *recordReader) quoted() (field string, ok bool) {
	for from := 1; ; {
		end := strings.IndexByte(r.rest[from:], '"')
		if end < 0 {
			return "", false
		}
		from += end + 1
		if strings.HasPrefix(r.rest[from:], `"`) {
			from++
			continue
		}
		field = strings.ReplaceAll(r.rest[1:from-1], `""`, `"`)
		r.rest = r.rest[from:]
		return field, true
	}
}

// findSeparator finds what separates the fields and takes off a first line
// that says so (sep=;). Of the candidates the one is taken that gives most
// lines the same number of fields, more fields deciding between equals.
func findSeparator(text []byte) (byte, []byte) {
	if rest, ok := bytes.CutPrefix(text, []byte("sep=")); ok && len(rest) > 0 {
		mark := rest[0]
		rest = bytes.TrimLeft(rest[1:], "\r")
		if body, ok := bytes.CutPrefix(rest, []byte("\n")); ok && isMark(mark) {
			return mark, body
		}
	}
	best, bestScore := byte(','), 0
	for _, candidate := range []byte(marks) {
		if score := separatorScore(text, candidate); score > bestScore {
			best, bestScore = candidate, score
		}
	}
	return best, text
}

// marks are what may separate fields.
const marks = ",;\t|"

func isMark(b byte) bool { return strings.IndexByte(marks, b) >= 0 }

// separatorScore counts a mark outside quotes over the first 20 lines: how
// many lines have as many of it as most others, then how many that is.
func separatorScore(text []byte, mark byte) int {
	counts := map[int]int{}
	found, lines, quoted := 0, 0, false
	before := byte('\n')
	for _, c := range text {
		switch {
		case c == '"' && (quoted || before == '\n' || isMark(before)):
			quoted = !quoted
		case quoted:
		case c == mark:
			found++
		case c == '\n':
			counts[found]++
			found = 0
			lines++
		}
		if before = c; lines == 20 {
			break
		}
	}
	counts[found]++
	score := 0
	for n, times := range counts {
		if n > 0 {
			score = max(score, times*1000+min(n, 999))
		}
	}
	return score
}
