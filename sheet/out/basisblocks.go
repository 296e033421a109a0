package out

import (
	"fmt"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// blockRules are the limits of a product laid in left and right blocks.
func (b *book) blockRules(p *job.Product) []rule {
	size := func(l measure.Length) string { return b.cut(l) + b.lengthSuffix() }
	words := fmt.Sprintf("%s of blocks %s x %s, joint %s: expansion gap %s, kerf %s.", capital(p.Pattern.String()), size(p.Length), size(p.Width), p.Joint, size(p.Gap), size(p.Kerf))
	if p.Pattern == job.PatternChevron {
		words += fmt.Sprintf(" Ends at %g degrees to the long side.", float64(p.ChevronAngle)/1000)
	}
	return []rule{
		{p.Code, words, strings.Join(notEmpty(packWords(p), p.Hands.String()), ", "), productRow + "; 12 mm, 45 degrees: common practice"},
		{p.Code, "Points run in the laying direction. The pattern begins where fewest blocks are bought, then cut; of equals where a line of points runs nearest to the room's middle. " +
			"Every piece is cut from a block of its hand at its own place in it, so that each joint is a factory side. By eye: the pattern centred, a block for every cut.", "", tradePractice},
	}
}

// capital is a text with its first letter, which is plain, a capital.
func capital(s string) string { return string(s[0]-'a'+'A') + s[1:] }
