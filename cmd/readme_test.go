package cmd

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/problem"
	"laybill/sheet/form"
	"laybill/sheet/table"
)

var update = flag.Bool("update", false, "write the README's tables and codes anew")

const readme = "../README.md"

func readReadme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The parts of the README that tests make, by the name in the marks around them.
func TestReadmeTables(t *testing.T) { generated(t, "tables", readmeTables()) }

func TestReadmeCodes(t *testing.T) { generated(t, "codes", readmeCodes()) }

// generated holds a part of the README against what the code says, or writes it
// anew.
func generated(t *testing.T, name, want string) {
	t.Helper()
	begin := "<!-- " + name + ": made by `go test ./cmd -run TestReadme -update` -->\n"
	end := "<!-- end of " + name + " -->"
	before, rest, ok := strings.Cut(readReadme(t), begin)
	got, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatalf("the README has no marks around its %s", name)
	}
	if *update {
		if err := os.WriteFile(readme, []byte(before+begin+want+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the README's %s are stale; run the test with -update (-want +got):\n%s", name, diff)
	}
}

// readmeCodes is every problem code with its meaning, gravest first.
func readmeCodes() string {
	var text strings.Builder
	text.WriteString("\n| code | | meaning | what to do |\n|---|---|---|---|\n")
	for _, severity := range []problem.Severity{problem.Error, problem.Warning, problem.Caution} {
		for _, code := range problem.Codes() {
			if entry := code.Entry(); entry.Severity == severity {
				fmt.Fprintf(&text, "| %s | %s | %s | %s |\n", code, severity, cells(entry.Title), cells(entry.Fix))
			}
		}
	}
	return text.String() + "\n"
}

func readmeTables() string {
	var text strings.Builder
	for i := range table.Tables {
		each := &table.Tables[i]
		need := "when needed"
		if each.Required {
			need = "always needed"
		}
		fmt.Fprintf(&text, "\n### %s\n\nOne row is %s; %s. %s\n\n", each.Sheet, each.Row, need, each.Help)
		text.WriteString("| column | holds | | empty means |\n|---|---|---|---|\n")
		for _, column := range each.Columns {
			fmt.Fprintf(&text, "| %s | %s | %s | %s |\n", marked(column.Heading, column.Required), form.Kind(column), cells(column.Help), column.Default)
		}
		if each.Key == "job" {
			text.WriteString(readmeSettings())
		}
	}
	return text.String() + "\n"
}

func readmeSettings() string {
	var text strings.Builder
	text.WriteString("\nThe settings:\n\n| setting | holds | | empty means |\n|---|---|---|---|\n")
	for _, s := range table.Settings {
		kind := form.Kind(table.Column{Kind: s.Kind, Choices: s.Choices})
		fmt.Fprintf(&text, "| %s | %s | %s | %s |\n", marked(s.Name, s.Required), kind, cells(s.Help), s.Default)
	}
	return text.String()
}

func marked(name string, required bool) string {
	if required {
		return "**" + name + "** *"
	}
	return name
}

func cells(parts ...string) string {
	return strings.ReplaceAll(strings.TrimSpace(strings.Join(parts, " ")), "|", `\|`)
}

var shellBlock = regexp.MustCompile("(?ms)^ *```sh\n(.*?)^ *```")

// readmeCommands are the commands that the README shows, in order.
func readmeCommands(t *testing.T) []string {
	t.Helper()
	var commands []string
	for _, block := range shellBlock.FindAllStringSubmatch(readReadme(t), -1) {
		for _, line := range strings.Split(block[1], "\n") {
			if line = strings.TrimSpace(line); line != "" {
				commands = append(commands, line)
			}
		}
	}
	return commands
}

// The first two commands are those a newcomer runs: the job, and the tests.
func TestReadmeBeginsWithTwoCommands(t *testing.T) {
	commands := readmeCommands(t)
	if len(commands) < 2 {
		t.Fatalf("commands %q", commands)
	}
	if diff := cmp.Diff([]string{"go run ./cmd/laybill price --demo", "go test ./..."}, commands[:2]); diff != "" {
		t.Error(diff)
	}
}

// Every command of the README runs, in one folder, one after the other. Those
// that build or test the program name what is there; this test is part of the
// one and has the program already.
func TestReadmeCommandsRun(t *testing.T) {
	folder := t.TempDir()
	bin := t.TempDir()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(self, filepath.Join(bin, "laybill")); err != nil {
		t.Fatal(err)
	}
	for _, line := range readmeCommands(t) {
		switch line {
		case "go test ./...":
			continue
		case "CGO_ENABLED=0 go build ./cmd/laybill":
			if _, err := os.Stat("laybill/main.go"); err != nil {
				t.Error(err)
			}
			continue
		}
		line = strings.Replace(line, "go run ./cmd/laybill", "laybill", 1)
		command := exec.Command("sh", "-c", line)
		command.Dir = folder
		command.Env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"))
		if out, err := command.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", line, err, out)
		}
	}
}

// The room that the README works by hand, in the words of the result file.
func TestReadmeWorkedRoom(t *testing.T) {
	text := readReadme(t)
	t.Chdir(t.TempDir())
	var stderr bytes.Buffer
	if code := Main([]string{"price", "--demo", "--json", "demo.json"}, nil, &bytes.Buffer{}, &stderr); code != exitDone {
		t.Fatalf("exit code %d: %s", code, stderr.String())
	}
	result := readResult(t, "demo.json")
	layout := ""
	for _, room := range result.Rooms {
		if room.Apartment == "E-101" && room.Room == "Store" {
			layout = room.Layout
			equal(t, "net area", room.Area, "1.2152")
		}
	}
	for _, l := range result.Layouts {
		if l.ID == layout {
			// Five rows from 12 mm on, each of one piece of 1216 mm, the last 188 mm wide.
			want := [][4]float64{{0, 0, 1216, 192}, {0, 0, 1216, 192}, {0, 0, 1216, 192}, {0, 0, 1216, 192}, {0, 0, 1216, 188}}
			var got [][4]float64
			for _, piece := range l.Pieces {
				x0, y0, x1, y1 := piece.In[0], piece.In[1], piece.In[2], piece.In[3]
				got = append(got, [4]float64{0, 0, x1 - x0, y1 - y0})
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("pieces (-want +got):\n%s", diff)
			}
		}
	}
	quantities := map[string]string{"CHECK": "1.2152", "OAK-8": "1.1625", "UND-5": "1.2152", "EDGE": "4.662", "SKIR-95": "3.702", "SEAL": "3.8871", "PROT": "1.276", "CARRY": "0.625", "CUT": "6"}
	for _, q := range result.Quantities {
		if want := quantities[q.Item]; q.Apartment == "E-101" && q.Room == "Store" && want != "" {
			equal(t, q.Item, q.Quantity, want)
			delete(quantities, q.Item)
		}
	}
	if len(quantities) > 0 {
		t.Errorf("no quantities of %v", quantities)
	}
	lengths := map[string][]float64{}
	for _, l := range result.Lengths {
		if l.Apartment == "E-101" && l.Room == "Store" {
			lengths[l.Product] = append(lengths[l.Product], l.Length)
		}
	}
	if diff := cmp.Diff(map[string][]float64{"UND-5": {1240}, "FILM-02": {1340}, "SKIR-95": {250, 257, 985, 1245, 985}}, lengths); diff != "" {
		t.Errorf("lengths (-want +got):\n%s", diff)
	}
	checkWorkedHours(t, text, result)
}

// checkWorkedHours holds the README's table of hours against the result.
func checkWorkedHours(t *testing.T, text string, result resultFile) {
	t.Helper()
	lines := 0
	for _, line := range result.Labour {
		if line.Apartment != "E-101" || line.Room == nil || *line.Room != "Store" || line.Quantity == "0" {
			continue
		}
		lines++
		hours := line.Hours
		if len(hours) < len("0.00") {
			hours += strings.Repeat("0", len("0.00")-len(hours))
		}
		row := regexp.MustCompile(`(?m)^\| ` + line.Operation + ` \| ` + regexp.QuoteMeta(line.Quantity) + ` [a-z0-9]+ \| ` +
			regexp.QuoteMeta(line.Each) + ` \| ` + regexp.QuoteMeta(hours) + ` \| ` + regexp.QuoteMeta(line.Cost) + ` \|$`)
		if !row.MatchString(text) {
			t.Errorf("the README's hours lack %s: %s x %s = %s h, %s", line.Operation, line.Quantity, line.Each, hours, line.Cost)
		}
	}
	if lines != 10 {
		t.Errorf("%d lines of hours, want the 10 of the README", lines)
	}
}

func equal(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is %s, want %s", what, got, want)
	}
}

// resultFile is what the test reads of a result file.
type resultFile struct {
	Rooms []struct {
		Apartment, Room, Layout string
		Area                    string `json:"area_m2"`
	}
	Layouts []struct {
		ID     string
		Pieces []struct {
			In [4]float64 `json:"in_stock_mm"`
		}
	}
	Lengths []struct {
		Apartment, Room, Product string
		Length                   float64 `json:"length_mm"`
	}
	Quantities []struct{ Apartment, Room, Item, Quantity string }
	Labour     []struct {
		Apartment, Operation, Quantity, Hours, Cost string
		Room                                        *string
		Each                                        string `json:"hours_per_unit"`
	}
}

func readResult(t *testing.T, path string) resultFile {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var result resultFile
	if err := json.Unmarshal(content, &result); err != nil {
		t.Fatal(err)
	}
	return result
}
