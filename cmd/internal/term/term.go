// Package term writes to a terminal: a progress line, plain tables and wrapped
// text, in black and white. Nothing is drawn on a stream that is not a
// terminal.
package term

import (
	"io"
	"os"

	"golang.org/x/term"
)

// usableWidth is the width of the terminal behind a stream; ok is false when
// there is none, or one that cannot redraw a line.
func usableWidth(w io.Writer) (width int, ok bool) {
	file, isFile := w.(*os.File)
	if !isFile || !term.IsTerminal(int(file.Fd())) || os.Getenv("TERM") == "dumb" {
		return 0, false
	}
	width, _, err := term.GetSize(int(file.Fd()))
	if err != nil || width <= 0 {
		const common = 80
		width = common
	}
	return width, true
}
