package term

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// redrawEvery is the least time between two drawings of the progress line.
const redrawEvery = 200 * time.Millisecond

// Progress is one line that is drawn over and over. Off a terminal it draws
// nothing.
type Progress struct {
	w     io.Writer
	now   func() time.Time
	width int
	on    bool
	drawn int // cells of the line that stands there
	last  time.Time
}

// NewProgress makes a progress line on w; now is the clock.
func NewProgress(w io.Writer, now func() time.Time) *Progress {
	width, on := usableWidth(w)
	return &Progress{w: w, now: now, width: width, on: on}
}

// Show draws the line, unless it was drawn a moment ago.
func (p *Progress) Show(text string) {
	if !p.on {
		return
	}
	at := p.now()
	if at.Sub(p.last) < redrawEvery {
		return
	}
	p.last = at
	text = cut(text, p.width-1)
	_, _ = fmt.Fprint(p.w, "\r"+text+strings.Repeat(" ", max(0, p.drawn-cells(text))))
	p.drawn = cells(text)
}

// Clear takes the line away.
func (p *Progress) Clear() {
	if p.drawn > 0 {
		_, _ = fmt.Fprint(p.w, "\r"+strings.Repeat(" ", p.drawn)+"\r")
		p.drawn = 0
	}
}
