package cmd

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"laybill/estimate/problem"
)

// mostShown is how many problems price prints; check prints all.
const mostShown = 30

// mostAlso is how many further cells of one problem are printed.
const mostAlso = 6

// printProblems prints problems: a line that says where and what, then what is
// expected and what to do.
func printProblems(w io.Writer, list problem.List) {
	for _, p := range list {
		_, _ = fmt.Fprintln(w, printable(p.Summary()))
		for _, line := range []struct{ label, text string }{
			{"expected", p.Want}, {"fix", p.Fix}, {"where", whereOf(p)}, {"also", alsoOf(p)},
		} {
			if line.text != "" {
				_, _ = fmt.Fprintf(w, "  %-9s %s\n", line.label, printable(line.text))
			}
		}
	}
}

// whereOf is the apartment and room a problem belongs to.
func whereOf(p problem.Problem) string {
	var parts []string
	if p.Apartment != "" {
		parts = append(parts, "apartment "+p.Apartment)
	}
	if p.Room != "" {
		parts = append(parts, "room "+p.Room)
	}
	return strings.Join(parts, ", ")
}

func alsoOf(p problem.Problem) string {
	var cells []string
	for i, ref := range p.Also {
		if i == mostAlso {
			cells = append(cells, fmt.Sprintf("%d more", len(p.Also)-mostAlso))
			break
		}
		cells = append(cells, ref.String())
	}
	return strings.Join(cells, ", ")
}

// printable keeps a text from the workbook on its line and free of anything a
// terminal would act on.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsGraphic(r) {
			return r
		}
		return ' '
	}, text)
}

// tally counts problems in words: 1 error, 3 cautions.
func tally(list problem.List) string {
	var counts []string
	for _, severity := range []problem.Severity{problem.Error, problem.Warning, problem.Caution} {
		if n := list.Count(severity); n > 0 {
			counts = append(counts, plural(n, severity.String()))
		}
	}
	if len(counts) == 0 {
		return "no problems"
	}
	return strings.Join(counts, ", ")
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
