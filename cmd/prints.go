package cmd

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"laybill/estimate"
	"laybill/sheet/booklet"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
)

// printOptions say what is written for the crew to print.
type printOptions struct {
	booklet  string
	drawings string // folder
}

func (o *printOptions) flags(command *cobra.Command) {
	command.Flags().StringVar(&o.booklet, "booklet", "", "also write the crew's booklet to `FILE.pdf`")
	command.Flags().StringVar(&o.drawings, "drawings", "", "also write every room's drawing into the folder `DIR`")
}

func (o *printOptions) check() error {
	if o.drawings == stream {
		return fmt.Errorf("--drawings takes a folder: the drawings are several files")
	}
	return nil
}

func (a *app) writePrints(ctx context.Context, outputs *outputs, o printOptions, result *estimate.Result) error {
	if o.booklet != "" {
		a.progress.Show("writing " + o.booklet)
		if err := outputs.write(ctx, o.booklet, func(w io.Writer) error { return booklet.Write(w, result) }); err != nil {
			return err
		}
	}
	if o.drawings == "" {
		return nil
	}
	a.progress.Show("writing drawings")
	return outputs.writeDrawings(ctx, o.drawings, result)
}

// drawingSize is how wide and high a drawing by itself is at most, in mm: it
// fills the width of a page.
const drawingSize = 205

const drawingEnding = ".svg"

// writeDrawings writes every room that is drawn differently into a folder.
func (o *outputs) writeDrawings(ctx context.Context, folder string, result *estimate.Result) error {
	lists := crew.Of(result)
	var files []folderFile
	for _, drawing := range lists.Drawings() {
		files = append(files, folderFile{drawing.File + drawingEnding, func(w io.Writer) error {
			_, err := w.Write(draw.SVG(lists.Scene(drawing.Room, drawingSize, drawingSize)))
			return err
		}})
	}
	isDrawing := func(name string) bool { return strings.HasSuffix(name, drawingEnding) }
	return o.writeFolder(ctx, folder, "drawings", isDrawing, files)
}
