package cmd

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"

	"laybill/sheet/book"
)

// stream is the argument that stands for standard input or output.
const stream = "-"

// mostFromStream is how much is read from standard input: as much as the
// largest file that is read at all.
const mostFromStream = 512 << 20

// openBook reads a workbook: a file, a folder of CSV files, or standard input.
// A file stays open to the end of the run: formulas without a stored value are
// calculated from it.
func (a *app) openBook(ctx context.Context, path string) (*book.Book, error) {
	a.progress.Show("reading " + path)
	if path == stream {
		content, err := a.readStream(ctx)
		if err != nil {
			return nil, err
		}
		b, err := book.OpenBytes(content)
		return b, inFile("standard input", err)
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, cannotRead(path, err)
	case info.IsDir():
		b, err := book.OpenFolder(os.DirFS(path))
		return b, inFile(path, err)
	case !info.Mode().IsRegular():
		return nil, fileError{path, errors.New("this is neither a file nor a folder")}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, cannotRead(path, err)
	}
	a.opened = append(a.opened, file)
	b, err := book.Open(file, info.Size())
	return b, inFile(path, err)
}

func inFile(path string, err error) error {
	if err == nil {
		return nil
	}
	return fileError{path, err}
}

// readStream reads standard input to its end, or until the context is done.
func (a *app) readStream(ctx context.Context) ([]byte, error) {
	type outcome struct {
		content []byte
		err     error
	}
	read := make(chan outcome, 1)
	go func() {
		var content bytes.Buffer
		_, err := content.ReadFrom(io.LimitReader(a.stdin, mostFromStream+1))
		if err == nil && content.Len() > mostFromStream {
			err = errors.New("more than is read from a stream")
		}
		read <- outcome{content.Bytes(), err}
	}()
	select {
	case <-ctx.Done():
		return nil, ctx.Err()
	case got := <-read:
		return got.content, inFile("standard input", got.err)
	}
}
