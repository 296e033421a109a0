package cmd

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// folderFile is one of several files that go into a folder.
type folderFile struct {
	name    string
	produce func(io.Writer) error
}

// writeFolder writes files of one kind, such as orders, into a folder, which is
// made when it is not there. What else lies in it stays as it is; but a file of
// the kind that this run does not write anew would be taken for one of its own,
// an order be sent or a plan be laid, so a folder with such is refused.
func (o *outputs) writeFolder(ctx context.Context, folder, kind string, ofKind func(name string) bool, files []folderFile) error {
	if err := o.makeFolder(folder); err != nil {
		return err
	}
	if err := noOthers(folder, kind, ofKind, files); err != nil {
		return err
	}
	for _, file := range files {
		if err := o.write(ctx, filepath.Join(folder, file.name), file.produce); err != nil {
			return err
		}
	}
	return nil
}

// noOthers makes sure that no files of the kind lie in the folder but those that
// are now written anew.
func noOthers(folder, kind string, ofKind func(name string) bool, files []folderFile) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return cannotRead(folder, err)
	}
	var others []string
	for _, entry := range entries {
		replaced := func(file folderFile) bool { return file.name == entry.Name() }
		if ofKind(entry.Name()) && !slices.ContainsFunc(files, replaced) {
			others = append(others, entry.Name())
		}
	}
	if len(others) == 0 {
		return nil
	}
	return fileError{folder, fmt.Errorf("the folder holds %s that are not of this run: %s; move them away, or name another folder", kind, strings.Join(others, ", "))}
}

// makeFolder makes a folder; one that this run has made goes again when the run
// fails.
func (o *outputs) makeFolder(path string) error {
	info, err := os.Stat(path)
	switch {
	case err == nil && !info.IsDir():
		return cannotWrite(path, errors.New("this is not a folder"))
	case err == nil:
		return nil
	}
	if err := os.Mkdir(path, 0o777); err != nil {
		return cannotWrite(path, err)
	}
	o.folders = append(o.folders, path)
	return nil
}
