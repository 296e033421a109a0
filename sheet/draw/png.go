// Package draw renders the scenes of estimate/drawing as PNG, SVG and PDF.
package draw

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"slices"
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/vector"

	"laybill/estimate/drawing"
)

// greys is the palette of a drawing: seventeen greys are enough for smooth edges
// and pack well. One fewer would put two dots into a byte, which the encoder does
// a dot at a time.
var greys = func() color.Palette {
	p := make(color.Palette, 17)
	for i := range p {
		p[i] = color.Gray{Y: uint8(i * 255 / 16)}
	}
	return p
}()

// shades is how light each shade is.
var shades = map[drawing.Shade]uint8{drawing.White: 255, drawing.Light: 216, drawing.Dark: 120, drawing.Black: 0}

// PNG renders the scene with so many dots per inch, black on white.
func PNG(scene *drawing.Scene, dpi int) ([]byte, error) {
	k := kits.Get().(*kit)
	defer kits.Put(k)
	c := k.canvas(scene, float64(dpi)/25.4)
	for _, area := range scene.Areas {
		c.area(area)
	}
	for _, line := range scene.Lines {
		c.line(line.From, line.To, line.Width)
	}
	for _, text := range scene.Texts {
		c.text(text)
	}
	var out bytes.Buffer
	// Line drawings pack well at once: the usual level takes four times as long
	// to save an eighth.
	encoder := png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: k}
	err := encoder.Encode(&out, c.paletted())
	return out.Bytes(), err
}

// kit is what one picture after another is made with. Nothing of a picture stays
// in it.
type kit struct {
	plain   *typeface
	bold    *typeface
	raster  vector.Rasterizer
	mask    []uint8 // of the shape that is painted
	dots    []uint8 // of the picture
	encoder *png.EncoderBuffer
}

var kits = sync.Pool{New: func() any { return &kit{plain: newTypeface(false), bold: newTypeface(true)} }}

// Get and Put lend the encoder its buffer.
func (k *kit) Get() *png.EncoderBuffer  { return k.encoder }
func (k *kit) Put(b *png.EncoderBuffer) { k.encoder = b }

// canvas is the picture in the making.
type canvas struct {
	*kit
	picture *image.Gray
	dots    float64 // per mm
}

func (k *kit) canvas(scene *drawing.Scene, dots float64) *canvas {
	size := image.Rect(0, 0, int(math.Ceil(scene.Width*dots)), int(math.Ceil(scene.Height*dots)))
	n := size.Dx() * size.Dy()
	if cap(k.dots) < n {
		k.dots = make([]uint8, n)
	}
	c := &canvas{kit: k, picture: &image.Gray{Pix: k.dots[:n], Stride: size.Dx(), Rect: size}, dots: dots}
	whiten(c.picture.Pix)
	return c
}

// whiten is written in copies, which the processor makes many dots at a time.
func whiten(dots []uint8) {
	if len(dots) > 0 {
		dots[0] = 255
	}
	for done := 1; done < len(dots); done *= 2 {
		copy(dots[done:], dots[:done])
	}
}

// paletted is the picture in the palette's greys; the canvas is used up.
func (c *canvas) paletted() *image.Paletted {
	pix := c.picture.Pix
	for i, y := range pix {
		pix[i] = nearestGrey[y]
	}
	return &image.Paletted{Pix: pix, Stride: c.picture.Stride, Rect: c.picture.Rect, Palette: greys}
}

// nearestGrey is the place in the palette of each of 256 greys.
var nearestGrey = func() (place [256]uint8) {
	for y := range place {
		place[y] = uint8((y*16 + 127) / 255)
	}
	return place
}()

func (c *canvas) area(a drawing.Area) {
	if a.Fill != drawing.Clear {
		c.fill(a.Rings, shades[a.Fill])
	}
	if a.Stroke == 0 {
		return
	}
	for _, ring := range a.Rings {
		for i, p := range ring {
			c.line(p, ring[(i+1)%len(ring)], a.Stroke)
		}
	}
}

// stretch is how many dots of a slanted line are painted at once: the rasteriser
// works through the whole rectangle about it.
const stretch = 24

// line paints a line, a slanted one stretch by stretch.
func (c *canvas) line(from, to drawing.Point, width float64) {
	dx, dy := to.X-from.X, to.Y-from.Y
	parts := max(1, math.Ceil(min(math.Abs(dx), math.Abs(dy))*c.dots/stretch))
	for i := range int(parts) {
		start, end := float64(i)/parts, float64(i+1)/parts
		c.bar(drawing.Point{X: from.X + dx*start, Y: from.Y + dy*start}, drawing.Point{X: from.X + dx*end, Y: from.Y + dy*end}, width)
	}
}

// bar is a rectangle along the line, as long as the line and half its width
// at each end, so that corners close.
func (c *canvas) bar(from, to drawing.Point, width float64) {
	dx, dy := to.X-from.X, to.Y-from.Y
	length := math.Hypot(dx, dy)
	if length == 0 {
		return
	}
	half := max(width, 1/c.dots) / 2
	if dx == 0 || dy == 0 {
		c.box(min(from.X, to.X)-half, min(from.Y, to.Y)-half, max(from.X, to.X)+half, max(from.Y, to.Y)+half)
		return
	}
	dx, dy = dx/length*half, dy/length*half
	c.fill([][]drawing.Point{{
		{X: from.X - dx - dy, Y: from.Y - dy + dx}, {X: to.X + dx - dy, Y: to.Y + dy + dx},
		{X: to.X + dx + dy, Y: to.Y + dy - dx}, {X: from.X - dx + dy, Y: from.Y - dy - dx},
	}}, 0)
}

// box paints a black rectangle along the edges of the paper, as nearly all lines
// of a drawing are: a pixel is covered as far as it is along x times along y.
func (c *canvas) box(x0, y0, x1, y1 float64) {
	bounds := c.pixels(drawing.Point{X: x0, Y: y0}, drawing.Point{X: x1, Y: y1})
	for y := bounds.Min.Y; y < bounds.Max.Y; y++ {
		down := covered(y, y0*c.dots, y1*c.dots)
		row := c.picture.Pix[c.picture.PixOffset(bounds.Min.X, y):][:bounds.Dx()]
		for i := range row {
			part := down * covered(bounds.Min.X+i, x0*c.dots, x1*c.dots)
			row[i] = uint8(float64(row[i])*(1-part) + 0.5)
		}
	}
}

// covered is how much of a pixel lies between two places.
func covered(pixel int, from, to float64) float64 {
	return max(0, min(to, float64(pixel+1))-max(from, float64(pixel)))
}

// fill paints what an odd number of the rings goes round. The rasteriser works
// through the whole rectangle it is given, so it is given no more than the
// shape's own.
func (c *canvas) fill(rings [][]drawing.Point, grey uint8) {
	low, high := extent(rings)
	bounds := c.pixels(low, high)
	if bounds.Empty() {
		return
	}
	c.ring(rings[0], bounds)
	cover := c.covers(bounds)
	if len(rings) > 1 {
		cover = slices.Clone(cover)
	}
	for _, ring := range rings[1:] {
		c.ring(ring, bounds)
		for i, other := range c.covers(bounds) {
			cover[i] = oneOf(cover[i], other)
		}
	}
	c.mix(bounds, cover, grey)
}

// oneOf is how much of a pixel one of two shapes covers and not both. The
// rasteriser itself fills what rings of one turn go round twice.
func oneOf(a, b uint8) uint8 {
	return uint8((int(a)*(255-int(b)) + int(b)*(255-int(a)) + 127) / 255)
}

// ring is the rasteriser's next shape, within a part of the picture.
func (c *canvas) ring(ring []drawing.Point, bounds image.Rectangle) {
	c.raster.Reset(bounds.Dx(), bounds.Dy())
	for i, p := range ring {
		x, y := float32(p.X*c.dots-float64(bounds.Min.X)), float32(p.Y*c.dots-float64(bounds.Min.Y))
		if i == 0 {
			c.raster.MoveTo(x, y)
			continue
		}
		c.raster.LineTo(x, y)
	}
	c.raster.ClosePath()
}

// covers is how much of each pixel the rasterised shape covers, until the next
// one. The rasteriser is fast only on a mask of its own.
func (c *canvas) covers(bounds image.Rectangle) []uint8 {
	width, height := bounds.Dx(), bounds.Dy()
	if len(c.mask) < width*height {
		c.mask = make([]uint8, width*height)
	}
	mask := &image.Alpha{Pix: c.mask[:width*height], Stride: width, Rect: image.Rect(0, 0, width, height)}
	c.raster.DrawOp = draw.Src
	c.raster.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	return mask.Pix
}

// mix paints a grey into the picture as far as each pixel is covered.
func (c *canvas) mix(bounds image.Rectangle, cover []uint8, grey uint8) {
	width := bounds.Dx()
	for y := range bounds.Dy() {
		row := c.picture.Pix[c.picture.PixOffset(bounds.Min.X, bounds.Min.Y+y):][:width]
		for x, cover := range cover[y*width:][:width] {
			if cover != 0 {
				row[x] = uint8((int(row[x])*(255-int(cover)) + int(grey)*int(cover) + 127) / 255)
			}
		}
	}
}

// pixels is the part of the picture that holds a rectangle of the paper.
func (c *canvas) pixels(low, high drawing.Point) image.Rectangle {
	return image.Rect(
		int(math.Floor(low.X*c.dots)), int(math.Floor(low.Y*c.dots)),
		int(math.Ceil(high.X*c.dots))+1, int(math.Ceil(high.Y*c.dots))+1,
	).Intersect(c.picture.Rect)
}

func extent(rings [][]drawing.Point) (low, high drawing.Point) {
	low = drawing.Point{X: math.Inf(1), Y: math.Inf(1)}
	high = drawing.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, ring := range rings {
		for _, p := range ring {
			low = drawing.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
			high = drawing.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
	}
	return low, high
}

func (c *canvas) text(t drawing.Text) {
	face := c.plain
	if t.Bold {
		face = c.bold
	}
	written := line(t.Value)
	place := newPlacement(t, face.width(written)*t.Size)
	if t.Halo {
		c.fill([][]drawing.Point{place.ground}, 255)
	}
	face.set(written, func(g glyph, atX, atY float64) {
		c.glyph(g, func(x, y float64) drawing.Point { return place.point((atX+x)*t.Size, (atY+y)*t.Size) })
	})
}

// placement turns and moves what is written at the origin to its place.
type placement struct {
	at       drawing.Point
	sin, cos float64
	back     float64 // how much of the text lies before its place
	ground   []drawing.Point
}

func newPlacement(t drawing.Text, width float64) placement {
	p := placement{at: t.At}
	p.sin, p.cos = math.Sincos(t.Turn * math.Pi / 180)
	switch t.Anchor {
	case drawing.Middle:
		p.back = width / 2
	case drawing.End:
		p.back = width
	}
	edge, up, down := 0.15*t.Size, -0.86*t.Size, 0.14*t.Size
	p.ground = []drawing.Point{p.point(-edge, up), p.point(width+edge, up), p.point(width+edge, down), p.point(-edge, down)}
	return p
}

// point is where a place along and below the base line comes out.
func (p placement) point(along, below float64) drawing.Point {
	along -= p.back
	return drawing.Point{X: p.at.X + along*p.cos + below*p.sin, Y: p.at.Y - along*p.sin + below*p.cos}
}

// glyph paints one letter.
func (c *canvas) glyph(g glyph, place func(x, y float64) drawing.Point) {
	if len(g.segments) == 0 {
		return
	}
	low, high := glyphExtent(g, place)
	bounds := c.pixels(low, high)
	if bounds.Empty() {
		return
	}
	c.raster.Reset(bounds.Dx(), bounds.Dy())
	pixel := func(s sfnt.Segment, i int) (x, y float32) {
		p := place(em(s.Args[i].X), em(s.Args[i].Y))
		return float32(p.X*c.dots - float64(bounds.Min.X)), float32(p.Y*c.dots - float64(bounds.Min.Y))
	}
	for _, s := range g.segments {
		ax, ay := pixel(s, 0)
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			c.raster.ClosePath()
			c.raster.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			c.raster.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := pixel(s, 1)
			c.raster.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			bx, by := pixel(s, 1)
			ex, ey := pixel(s, 2)
			c.raster.CubeTo(ax, ay, bx, by, ex, ey)
		}
	}
	c.raster.ClosePath()
	c.mix(bounds, c.covers(bounds), 0)
}

func glyphExtent(g glyph, place func(x, y float64) drawing.Point) (low, high drawing.Point) {
	b := g.bounds()
	return extent([][]drawing.Point{{place(b[0], b[1]), place(b[2], b[1]), place(b[2], b[3]), place(b[0], b[3])}})
}

// bounds is the smallest box round the letter's control points, in ems.
func (g glyph) bounds() [4]float64 {
	b := [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, s := range g.segments {
		for i := range argumentsOf(s.Op) {
			x, y := em(s.Args[i].X), em(s.Args[i].Y)
			b = [4]float64{min(b[0], x), min(b[1], y), max(b[2], x), max(b[3], y)}
		}
	}
	return b
}

func argumentsOf(op sfnt.SegmentOp) int {
	switch op {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}
