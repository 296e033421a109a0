// Package published gives tests what they hold the program against: tables of
// published figures, and open data, which for its licences stays in a folder
// beside the repository. Only tests import it.
//
// What is not there skips the test with the reason, and fails it when CI=true.
package published

import (
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Path is a file or folder of the folder shared beside the repository, or of
// the one that LAYBILL_SHARED names.
func Path(t testing.TB, name ...string) string {
	t.Helper()
	path := filepath.Join(append([]string{folder(t)}, name...)...)
	if _, err := os.Stat(path); err != nil {
		absent(t, err)
	}
	return path
}

// Open opens a file of that folder, until the test ends.
func Open(t testing.TB, name ...string) *os.File {
	t.Helper()
	file, err := os.Open(Path(t, name...))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	return file
}

// Table is the rows of a table of published figures, without its headings.
// Lines that begin with # tell its sources.
func Table(t testing.TB, name string) [][]string {
	t.Helper()
	rows := csv.NewReader(Open(t, "reference", name))
	rows.Comment, rows.FieldsPerRecord = '#', -1
	records, err := rows.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return records[1:]
}

// Keyed is the rows of a table by their first cell.
func Keyed(t testing.TB, name string) map[string][]string {
	t.Helper()
	rows := map[string][]string{}
	for _, row := range Table(t, name) {
		rows[row[0]] = row
	}
	return rows
}

// Program is the path of a program that tests compare with.
func Program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		absent(t, err)
	}
	return path
}

func folder(t testing.TB) string {
	t.Helper()
	if named := os.Getenv("LAYBILL_SHARED"); named != "" {
		return named
	}
	at, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(at, "go.mod")); err == nil {
			return filepath.Join(at, "..", "shared")
		}
		at = filepath.Dir(at)
	}
}

func absent(t testing.TB, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("not here: %v", err)
	}
	t.Skipf("not here: %v", err)
}
