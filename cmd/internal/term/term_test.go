package term

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func TestProgressOffATerminalDrawsNothing(t *testing.T) {
	var out bytes.Buffer
	p := NewProgress(&out, time.Now)
	p.Show("laying 1 of 9")
	p.Clear()
	if out.Len() > 0 {
		t.Errorf("drew %q", out.String())
	}
}

// One line, at most five drawings a second, nothing of a longer line left, cut
// to the width of the terminal.
func TestProgress(t *testing.T) {
	var out bytes.Buffer
	clock := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	p := &Progress{w: &out, now: func() time.Time { return clock }, width: 12, on: true}
	p.Show("laying 1 of 9")
	clock = clock.Add(199 * time.Millisecond)
	p.Show("laying 2 of 9")
	clock = clock.Add(time.Millisecond)
	p.Show("cut")
	p.Clear()
	p.Clear()
	want := "\rlaying 1 of\rcut        \r   \r"
	if diff := cmp.Diff(want, out.String()); diff != "" {
		t.Error(diff)
	}
}

func TestTable(t *testing.T) {
	for _, test := range []struct {
		name string
		make func() *Table
		want string
	}{
		{"numbers to the right, remarks to the left", func() *Table {
			table := NewTable("", "EUR", "")
			table.Row("Material", "1,200.00", "")
			table.Row("Profit", "90.00", "margin 7 %")
			return table
		}, "                 EUR\n  Material  1,200.00\n  Profit       90.00  margin 7 %\n"},
		{"wide characters take two cells", func() *Table {
			table := NewTable("Room", "m2")
			table.Row("床", "4")
			table.Row("Hall", "12")
			return table
		}, "  Room  m2\n  床     4\n  Hall  12\n"},
		{"words", func() *Table {
			table := NewTable("Code", "")
			table.TextColumns()
			table.Row("a", "one")
			table.Row("bcdef", "two")
			return table
		}, "  Code\n  a      one\n  bcdef  two\n"},
	} {
		var out strings.Builder
		test.make().Write(&out)
		if diff := cmp.Diff(test.want, out.String()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}

func TestGroup(t *testing.T) {
	for text, want := range map[string]string{"0": "0", "999": "999", "1000": "1,000", "-1234567.80": "-1,234,567.80", "100000": "100,000"} {
		if got := Group(text); got != want {
			t.Errorf("Group(%q) is %q, want %q", text, got, want)
		}
	}
}

func TestWrap(t *testing.T) {
	got := Wrap("  Fix: ", strings.Repeat("word ", 30))
	for _, line := range strings.Split(strings.TrimSuffix(got, "\n"), "\n") {
		if len(line) > lineWidth || !strings.HasPrefix(line, "       word") && !strings.HasPrefix(line, "  Fix: word") {
			t.Errorf("line %q", line)
		}
	}
	if n := strings.Count(got, "word"); n != 30 {
		t.Errorf("%d words, want 30", n)
	}
}
