package out

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
)

// sheetNames gives every sheet a name that a workbook allows and no two alike.
type sheetNames struct{ taken map[string]bool }

// longestSheetName is in UTF-16 units, as the format counts.
const longestSheetName = 31

// unique is the wanted name without what is not allowed, cut to length, and
// numbered when it is taken; capitals do not tell names apart.
func (n *sheetNames) unique(wanted string) string {
	base := allowedName(wanted)
	name := cutName(base, longestSheetName)
	for i := 2; n.taken[fold(name)]; i++ {
		tail := fmt.Sprintf(" (%d)", i)
		name = cutName(base, longestSheetName-len(tail)) + tail
	}
	n.taken[fold(name)] = true
	return name
}

func fold(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// allowedName puts a hyphen for what no sheet name may hold, and for quotation
// marks, which some programs misread in a reference.
func allowedName(wanted string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(`:\/?*[]"`, r):
			return '-'
		case unicode.IsControl(r) || r == unicode.ReplacementChar || r == 0xFFFE || r == 0xFFFF:
			return -1
		}
		return r
	}, wanted)
	name = strings.Trim(name, "' ")
	// A sheet of this name is reserved for tracked changes.
	if name == "" || strings.EqualFold(name, "History") {
		name += "Sheet"
	}
	return name
}

func cutName(name string, units int) string {
	length := 0
	for i, r := range name {
		length += utf16.RuneLen(r)
		if length > units {
			return strings.TrimRight(name[:i], "' ")
		}
	}
	return name
}

// reference is a sheet's name as a formula writes it.
func reference(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }
