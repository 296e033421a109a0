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

	"laybill/estimate"
	"laybill/sheet/exchange"
)

// writeOrders writes the order documents into a folder, which is made when it
// is not there. Files of other names in it stay as they are; but orders of an
// earlier run that this one does not replace would be sent by mistake, so a
// folder with such is refused.
func (o *outputs) writeOrders(ctx context.Context, folder string, result *estimate.Result) error {
	files, err := exchange.OrderFiles(result)
	if err != nil {
		return err
	}
	if err := o.makeFolder(folder); err != nil {
		return err
	}
	if err := noOtherOrders(folder, files); err != nil {
		return err
	}
	for _, file := range files {
		err := o.write(ctx, filepath.Join(folder, file.Name), func(w io.Writer) error {
			_, err := w.Write(file.Data)
			return err
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// noOtherOrders makes sure that no order documents lie in the folder but those
// that are now written anew.
func noOtherOrders(folder string, files []exchange.OrderFile) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return cannotRead(folder, err)
	}
	var others []string
	for _, entry := range entries {
		replaced := func(file exchange.OrderFile) bool { return file.Name == entry.Name() }
		if exchange.IsOrderFile(entry.Name()) && !slices.ContainsFunc(files, replaced) {
			others = append(others, entry.Name())
		}
	}
	if len(others) == 0 {
		return nil
	}
	return fileError{folder, fmt.Errorf("the folder holds orders that are not of this run: %s; move them away, or name another folder", strings.Join(others, ", "))}
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
