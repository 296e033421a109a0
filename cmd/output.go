package cmd

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// outputs are the files of one run. Each is written to its end beside its
// place, and they are put in place together at the very end, so that a run
// that fails or is interrupted leaves every old file as it was.
type outputs struct {
	stdout  io.Writer
	files   []output
	folders []string     // made by this run, to go again when it fails
	stream  bytes.Buffer // what goes to standard output
}

type output struct{ path, temp string }

// sink passes bytes on until the context is done, and remembers why it could
// not: a file that cannot be written is not a fault of the program.
type sink struct {
	ctx context.Context
	w   io.Writer
	err error
}

func (s *sink) Write(p []byte) (int, error) {
	if s.err = s.ctx.Err(); s.err != nil {
		return 0, s.err
	}
	n, err := s.w.Write(p)
	s.err = err
	return n, err
}

// write writes one output to its end. The path "-" is standard output.
func (o *outputs) write(ctx context.Context, path string, produce func(io.Writer) error) error {
	if path == stream {
		return produce(&o.stream)
	}
	target, err := place(path)
	if err != nil {
		return cannotWrite(path, err)
	}
	file, err := createBeside(target)
	if err != nil {
		return cannotWrite(path, err)
	}
	o.files = append(o.files, output{target, file.Name()})
	to := &sink{ctx: ctx, w: file}
	if err := produce(to); err != nil {
		_ = file.Close()
		if to.err != nil && !errors.Is(to.err, context.Canceled) {
			return cannotWrite(path, to.err)
		}
		return err
	}
	if err := errors.Join(file.Sync(), file.Close()); err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

// place is where a path's file stands: the end of its links. What is there and
// is not a file, such as a folder or a device, is not written over.
func place(path string) (string, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return path, nil
	case err != nil:
		return "", err
	case !info.Mode().IsRegular():
		return "", errors.New("this is not a file")
	}
	return filepath.EvalSymlinks(path)
}

// createBeside makes a new file in the folder of the target, readable as the
// user's other new files are.
func createBeside(target string) (*os.File, error) {
	const tries, mode = 100, 0o644
	var last error
	for n := range tries {
		name := filepath.Join(filepath.Dir(target), fmt.Sprintf(".%s.%d-%d.part", filepath.Base(target), os.Getpid(), n))
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err == nil {
			return file, nil
		}
		last = err
		if !errors.Is(err, os.ErrExist) {
			break
		}
	}
	return nil, last
}

// commit puts every file in its place.
func (o *outputs) commit(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	for len(o.files) > 0 {
		file := o.files[0]
		if err := os.Rename(file.temp, file.path); err != nil {
			return cannotWrite(file.path, err)
		}
		o.files = o.files[1:]
	}
	o.folders = nil
	if _, err := o.stream.WriteTo(o.stdout); err != nil {
		return cannotWrite("standard output", err)
	}
	return nil
}

// discard takes away what was not put in place.
func (o *outputs) discard() {
	for _, file := range o.files {
		_ = os.Remove(file.temp)
	}
	for _, folder := range o.folders {
		_ = os.Remove(folder)
	}
}
