package problem

import "sort"

// Code names a kind of problem: lower-case words joined by hyphens, the thing
// first. A code never changes its meaning.
type Code string

// Entry explains a code to a person.
type Entry struct {
	Severity Severity
	Title    string // what is wrong, in a few words
	Cause    string // why Laybill says so
	Fix      string // what to do about it
}

// Entry is the catalogue's explanation of the code. A code that is not in the
// catalogue is a fault of the program.
func (c Code) Entry() Entry {
	entry, ok := catalogue[c]
	if !ok {
		panic("problem: code " + string(c) + " is not in the catalogue")
	}
	return entry
}

// Explain finds the entry of a code; ok is false when there is none.
func Explain(code string) (entry Entry, ok bool) {
	entry, ok = catalogue[Code(code)]
	return entry, ok
}

// Codes lists every code in alphabetical order.
func Codes() []Code {
	codes := make([]Code, 0, len(catalogue))
	for code := range catalogue {
		codes = append(codes, code)
	}
	sort.Slice(codes, func(i, j int) bool { return codes[i] < codes[j] })
	return codes
}

// catalogue is gathered from the parts below, one for each stage of the job.
var catalogue = merge(workbookCodes, jobCodes, doubtCodes, siteCodes, subfloorCodes)

func merge(parts ...map[Code]Entry) map[Code]Entry {
	all := map[Code]Entry{}
	for _, part := range parts {
		for code, entry := range part {
			if _, twice := all[code]; twice {
				panic("problem: code " + string(code) + " is in the catalogue twice")
			}
			all[code] = entry
		}
	}
	return all
}
