package cmd

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"

	"laybill/estimate"
	"laybill/sheet/exchange"
)

// writeOrders writes the order documents into a folder, which is made when it
// is not there. Files of other names in it stay as they are.
func (o *outputs) writeOrders(ctx context.Context, folder string, result *estimate.Result) error {
	files, err := exchange.OrderFiles(result)
	if err != nil {
		return err
	}
	if err := o.makeFolder(folder); err != nil {
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
