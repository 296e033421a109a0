package cmd

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"laybill": func() { os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

const scripts = "../testdata/script"

// The scripts may use, besides the usual commands:
//
//	book FILE.xlsx [-SHEET] [hide=SHEET] [SHEET!CELL=TEXT] [format=SHEET!CELL=FORMAT]...
//	    make a workbook: the sheets of testdata/base, those of the script's folder
//	    job in their place, less the sheets named with -, with some hidden, and
//	    single cells or their number formats changed
//	ends CODE COMMAND ARG...
//	    run a command and want its exit code
func TestScripts(t *testing.T) {
	base, err := filepath.Abs("../testdata/base")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"book": func(ts *testscript.TestScript, neg bool, args []string) { makeScriptBook(ts, base, args) },
			"ends": runToCode,
		},
	})
}

// runToCode is the command ends.
func runToCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: ends CODE COMMAND ARG...")
	}
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("exit code %d, want %s", got, args[0])
	}
}

// makeScriptBook is the command book.
func makeScriptBook(ts *testscript.TestScript, base string, args []string) {
	if len(args) == 0 {
		ts.Fatalf("usage: book FILE.xlsx [CHANGE]...")
	}
	sheets := map[string]string{} // sheet: file
	for _, folder := range []string{base, ts.MkAbs("job")} {
		files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
		ts.Check(err)
		for _, file := range files {
			sheets[strings.TrimSuffix(filepath.Base(file), ".csv")] = file
		}
	}
	var cells []string
	for _, arg := range args[1:] {
		if sheet, drop := strings.CutPrefix(arg, "-"); drop {
			delete(sheets, sheet)
		} else {
			cells = append(cells, arg)
		}
	}
	ts.Check(writeBook(ts.MkAbs(args[0]), sheets, cells))
}

func writeBook(path string, sheets map[string]string, changes []string) error {
	f := excelize.NewFile()
	defer func() { _ = f.Close() }()
	var names []string
	for name := range sheets {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if _, err := f.NewSheet(name); err != nil {
			return err
		}
		if err := fillSheet(f, name, sheets[name]); err != nil {
			return err
		}
	}
	if err := f.DeleteSheet("Sheet1"); err != nil {
		return err
	}
	for _, change := range changes {
		if err := changeBook(f, change); err != nil {
			return err
		}
	}
	if err := f.SaveAs(path); err != nil {
		return err
	}
	return os.Chmod(path, 0o644)
}

// changeBook makes one change that the command book names.
func changeBook(f *excelize.File, change string) error {
	place, text, ok := strings.Cut(change, "=")
	if place == "hide" {
		return f.SetSheetVisible(text, false)
	}
	format := place == "format"
	if format {
		place, text, ok = strings.Cut(text, "=")
	}
	sheet, cell, inSheet := strings.Cut(place, "!")
	if !ok || !inSheet {
		return fmt.Errorf("%q is not SHEET!CELL=TEXT", change)
	}
	if format {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &text})
		return errors.Join(err, f.SetCellStyle(sheet, cell, cell, style))
	}
	return setCell(f, sheet, cell, text)
}

func fillSheet(f *excelize.File, sheet, file string) error {
	content, err := os.Open(file)
	if err != nil {
		return err
	}
	defer func() { _ = content.Close() }()
	reader := csv.NewReader(content)
	reader.FieldsPerRecord = -1
	records, err := reader.ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	for i, record := range records {
		for j, text := range record {
			if err := setCell(f, sheet, fmt.Sprintf("%s%d", problem.ColumnName(j+1), i+1), text); err != nil {
				return err
			}
		}
	}
	return nil
}

// setCell writes a number where the text is one, a formula after two equal
// signs, else the text; nothing for no text.
func setCell(f *excelize.File, sheet, cell, text string) error {
	if formula, ok := strings.CutPrefix(text, "=="); ok {
		return errors.Join(f.SetCellValue(sheet, cell, nil), f.SetCellFormula(sheet, cell, formula))
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return f.SetCellDefault(sheet, cell, text)
	}
	if text == "" {
		return f.SetCellValue(sheet, cell, nil)
	}
	return f.SetCellStr(sheet, cell, text)
}

// Every problem code has a script that provokes it.
func TestEveryCodeHasAScript(t *testing.T) {
	for _, code := range problem.Codes() {
		if _, err := os.Stat(scriptOf(code)); err != nil {
			t.Errorf("no script provokes %s: %v", code, err)
		}
	}
}

func scriptOf(code problem.Code) string {
	return filepath.Join(scripts, "problem_"+strings.ReplaceAll(string(code), "-", "_")+".txtar")
}

// A script of a code looks for that code.
func TestScriptsNameTheirCode(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scripts, "problem_*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(file), "problem_"), ".txtar")
		code := strings.ReplaceAll(name, "_", "-")
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		entry, known := problem.Explain(code)
		if !known {
			t.Errorf("%s: there is no code %s", file, code)
			continue
		}
		if want := fmt.Sprintf("%s: %s: found", entry.Severity, code); !strings.Contains(string(content), want) {
			t.Errorf("%s does not look for %q", file, want)
		}
	}
}
