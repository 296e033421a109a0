package book

import "fmt"

// Limits on what is read, so that a hostile file costs bounded time and
// memory. They are far above any workbook of a real job: 8 million cells is
// 500,000 rooms with every column filled.
const (
	maxFile      = 256 << 20 // bytes of the file
	maxFolder    = 64 << 20  // bytes of a folder's CSV files
	maxDirectory = 8 << 20   // bytes of the package's directory
	maxEntries   = 10_000    // parts of the package
	maxPart      = 512 << 20 // bytes of one part, inflated
	maxTotal     = 512 << 20 // bytes of all parts read, inflated
	maxRatio     = 300       // inflated to stored size, of parts over ratioFrom
	ratioFrom    = 16 << 20
	maxToken     = 4 << 20 // bytes of one tag or one run of text
	maxDepth     = 64      // nested elements
	maxSheets    = 4096
	maxCells     = 8_000_000
	maxTextCells = 4_000_000 // of a folder's CSV files
	maxStrings   = 4_000_000
	maxText      = 160 << 20 // bytes of all texts and numbers
	maxStyles    = 1 << 16
	maxMerged    = 1_000_000
	maxRow       = 1_048_576 // ECMA-376 part 1, 18.3.1.73: rows of a sheet
	maxCol       = 16_384    // columns of a sheet
)

// Reason is why a file is refused.
type Reason string

// The reasons. Each is what the file is, in a few words.
const (
	IsEmpty      Reason = "the file is empty"
	IsEncrypted  Reason = "the workbook is locked with a password"
	IsOld        Reason = "this is an old .xls workbook"
	IsBinary     Reason = "this is a binary .xlsb workbook"
	IsODS        Reason = "this is an OpenDocument (.ods) spreadsheet"
	IsOther      Reason = "this is not a workbook"
	IsText       Reason = "this is a text file, not a workbook"
	IsTooLarge   Reason = "the workbook is too large"
	IsDamaged    Reason = "the workbook is damaged"
	IsUnreadable Reason = "the file cannot be read"
)

// advice says for each reason what to do.
var advice = map[Reason]string{
	IsEmpty:     "it has no bytes; save or copy it again",
	IsEncrypted: "open it and save a copy without a password",
	IsOld:       "open it and save it as an Excel workbook (.xlsx)",
	IsBinary:    "open it and save it as an Excel workbook (.xlsx)",
	IsODS:       "open it and save it as an Excel workbook (.xlsx)",
	IsOther:     "a workbook (.xlsx) is expected",
	IsText:      "save it as a workbook (.xlsx), or put it in a folder of CSV files, one for each sheet",
	IsDamaged:   "open it, look whether all rows are there, and save it again",
}

// Refusal is the error of a file that is not read. No part of it is used.
type Refusal struct {
	Reason Reason
	Sheet  string // sheet or part of the file, "" for the file as a whole
	Cell   string // cell or row in the sheet, "" when not known
	Detail string // what exactly is wrong, "" when the reason says it all
	Err    error  // the error behind it, if any
}

// Error is the refusal on one line: reason, place, detail and what to do.
func (r *Refusal) Error() string {
	text := string(r.Reason)
	if r.Sheet != "" {
		text += ": " + r.Sheet
		if r.Cell != "" {
			text += "!" + r.Cell
		}
	}
	if r.Detail != "" {
		text += ": " + r.Detail
	}
	if todo := advice[r.Reason]; todo != "" {
		text += " (" + todo + ")"
	}
	return text
}

// Unwrap is the error behind the refusal.
func (r *Refusal) Unwrap() error { return r.Err }

func damaged(place, format string, args ...any) *Refusal {
	return &Refusal{Reason: IsDamaged, Sheet: place, Detail: fmt.Sprintf(format, args...)}
}

func tooLarge(place, format string, args ...any) *Refusal {
	return &Refusal{Reason: IsTooLarge, Sheet: place, Detail: fmt.Sprintf(format, args...)}
}
