package subfloor

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// Film is whether a vapour film belongs under a room's covering.
type Film int

// A film is needed under a floating floor of planks on a mineral subfloor, it
// may trap moisture in a wood subfloor, and a covering that is glued down has
// the barrier of its primer instead (common practice; the maker's instructions
// rule). Where nobody said what the subfloor is, it stays open.
const (
	FilmOpen Film = iota
	FilmNeeded
	FilmNotNeeded
	FilmHarmful
)

// films are the words.
var films = []string{"open", "needed", "not needed", "leave out"}

func (f Film) String() string { return films[f] }

// FilmFor is whether a film belongs under a room's covering.
func FilmFor(room *job.Room) Film {
	switch {
	case room.Subfloor == job.WoodSubfloor:
		return FilmHarmful
	case !floating(room.BuildUp):
		return FilmNotNeeded
	case room.Subfloor == job.NotSaid:
		return FilmOpen
	}
	return FilmNeeded
}

// HasFilm tells whether the build-up has a film.
func HasFilm(b *job.BuildUp) bool {
	for _, line := range b.Lines {
		if line.Product != nil && line.Product.Kind == job.Film {
			return true
		}
	}
	return false
}

// floating tells whether the covering is planks that nothing glues down.
func floating(b *job.BuildUp) bool {
	covering := b.Covering()
	if covering == nil || covering.Product.Kind != job.Plank || covering.Product.Joint == job.GlueDown {
		return false
	}
	for _, line := range b.Lines {
		if line.Product != nil && line.Product.Kind == job.Adhesive && line.Measure == job.LaidArea {
			return false
		}
	}
	return true
}

// MostHeatResistance is what a covering and the layers under it may resist heat
// by over a heated floor: 0.15 m2K/W (EN 1264, limit in practice).
var MostHeatResistance = decimal.New(15, -2)

// HeatResistance is what the covering and the sheets before it in its build-up
// resist heat by, in m2K/W; missing names those whose row does not say.
func HeatResistance(b *job.BuildUp) (sum decimal.Decimal, missing []string) {
	for _, line := range b.Lines {
		if line.Product == nil {
			continue
		}
		covering := line.Product.Kind.Covering()
		if !covering && line.Product.Kind != job.Sheet {
			continue
		}
		if line.Product.HeatResist.IsZero() {
			missing = append(missing, line.Product.Code)
		}
		sum = sum.Add(line.Product.HeatResist.Mul(line.Factor))
		if covering {
			break
		}
	}
	return sum, missing
}
