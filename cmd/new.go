package cmd

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"laybill/sheet/form"
	"laybill/templates"
)

type newOptions struct {
	units string
	demo  bool
}

func (a *app) newCommand() *cobra.Command {
	var options newOptions
	command := &cobra.Command{
		Use:   "new FILE.xlsx",
		Short: "make a job workbook to fill in",
		Long: `Makes a job workbook with a sheet for each table: headings with notes, drop-down
lists, and a first sheet that says in which order to fill it in. With --demo it
holds a complete invented job. An existing file is never overwritten.`,
		Example: `  laybill new job.xlsx                     metric
  laybill new job.xlsx --units imperial    feet, inches and square feet
  laybill new demo.xlsx --demo             the invented demo building`,
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error { return a.makeBook(c.Context(), args[0], options) },
	}
	command.Flags().StringVar(&options.units, "units", string(templates.Metric), "units of the workbook: metric or imperial")
	command.Flags().BoolVar(&options.demo, "demo", false, "fill it with the invented demo building")
	return command
}

func (a *app) makeBook(ctx context.Context, path string, options newOptions) error {
	system, err := systemNamed(options.units)
	if err != nil {
		return err
	}
	if err := newFile(path); err != nil {
		return err
	}
	fill := templates.Blank(system)
	if options.demo {
		fill = templates.Demo(system)
	}
	out := &outputs{stdout: a.stdout}
	defer out.discard()
	if err := out.write(ctx, path, func(w io.Writer) error { return form.Write(w, fill) }); err != nil {
		return err
	}
	if err := out.commit(ctx); err != nil {
		return err
	}
	if path != stream {
		a.print(fmt.Sprintf("Written: %s\nFill it in, then run: laybill check %s\n", path, path))
	}
	return nil
}

func systemNamed(word string) (templates.System, error) {
	for _, system := range templates.Systems {
		if strings.EqualFold(word, string(system)) {
			return system, nil
		}
	}
	return "", usagef("--units %s is not known; it is metric or imperial", word)
}

// newFile makes sure that the path is a workbook's and not taken.
func newFile(path string) error {
	if path == stream {
		return nil
	}
	if err := workbookName(path); err != nil {
		return err
	}
	if _, err := os.Lstat(path); err == nil {
		return fileError{path, errors.New("the file exists already and is left as it is; choose another name")}
	}
	return nil
}

func workbookName(path string) error {
	if !strings.HasSuffix(strings.ToLower(path), ".xlsx") {
		return usagef("%s: the name of a workbook ends in .xlsx", path)
	}
	return nil
}
