package estimate

import (
	"fmt"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/subfloor"
)

// subfloorCautions are what the subfloors give cause to think of: floors that
// are not flat, dust from grinding, films and heating.
func (r *Result) subfloorCautions(list *problem.List) {
	r.flatnessCautions(list)
	r.silicaCaution(list)
	r.filmCautions(list)
	r.heatCautions(list)
}

// flatnessCautions name each surveyed room whose readings break its flatness
// group; readings of a type count once for all its apartments.
func (r *Result) flatnessCautions(list *problem.List) {
	seen := map[*job.Room]bool{}
	for i := range r.Subfloor.Rooms {
		room := &r.Subfloor.Rooms[i]
		spec := room.Room.Spec
		if !room.Surveyed() || room.Flatness.Kept() || !room.Own && seen[spec] {
			continue
		}
		p := problem.Problem{Code: problem.FlatnessBroken, At: room.Readings[0].Ref, Room: spec.Name, Found: r.flatnessWords(room)}
		if room.Own {
			p.Apartment = room.Room.Apartment.Name
		} else {
			seen[spec] = true
		}
		worst := room.Flatness.WorstOf()
		p.Want = fmt.Sprintf("at most %s over %s in %s of DIN 18202 table 3", worst.Limit, r.metres(worst.Distance), room.Flatness.Group)
		p.Fix = "level or grind as counted on the sheet Subfloor, and check again before laying"
		if !room.Poured() && room.AreaDepth().Sign() > 0 {
			p.Fix = fmt.Sprintf("add compound by area x depth to %s: none is ordered for this room", spec.BuildUp.Name)
		}
		list.Add(p)
	}
}

func (r *Result) flatnessWords(room *subfloor.Room) string {
	worst := room.Flatness.WorstOf()
	side := "above"
	if worst.Deviation < 0 {
		side = "below"
	}
	name := strings.TrimSpace(room.Room.Spec.Type + " " + room.Room.Spec.Name)
	if room.Own {
		name = room.Room.Apartment.Name + " " + room.Room.Spec.Name
	}
	unit := r.Job.Settings.LengthUnit
	return fmt.Sprintf("in %s the subfloor is %s %s a straightedge from %s, %s to %s, %s, at %s, %s; %d of %d straightedges break the group",
		name, max(worst.Deviation, -worst.Deviation), side, worst.From.X.Format(unit), worst.From.Y.Format(unit), worst.To.X.Format(unit), worst.To.Y.Format(unit),
		worst.At.X.Format(unit), worst.At.Y.Format(unit), room.Flatness.Broken, room.Flatness.Checked)
}

// metres is a distance as a person says it: metres or feet to two decimals.
func (r *Result) metres(l measure.Length) string {
	unit := measure.M
	if r.Job.Settings.LengthUnit.Imperial() {
		unit = measure.Ft
	}
	return l.Decimal(unit).StringFixed(2) + " " + unit.String()
}

// silicaCaution is raised once, by the first line of a build-up that grinds.
func (r *Result) silicaCaution(list *problem.List) {
	for _, line := range r.Takeoff.Lines {
		if line.Measure == job.Grinding && line.Operation != nil {
			list.Add(problem.Problem{Code: problem.SilicaDust, At: line.Spec.Ref, Found: fmt.Sprintf("%s grinds the subfloor", line.Item()),
				Want: "a shroud and a dust collector, and respirators where the time and the place ask for them", Fix: "plan the grinding by 29 CFR 1926.1153 table 1 or the local rule; the employer's exposure plan decides"})
			return
		}
	}
}

// filmCautions name each build-up that lacks a film on a mineral subfloor or
// has one on wood, at the first room that shows it.
func (r *Result) filmCautions(list *problem.List) {
	type cause struct {
		buildUp *job.BuildUp
		film    subfloor.Film
	}
	seen := map[cause]bool{}
	for _, room := range r.Job.Rooms {
		c := cause{room.BuildUp, subfloor.FilmFor(room)}
		has := subfloor.HasFilm(room.BuildUp)
		missing, harmful := c.film == subfloor.FilmNeeded && !has, c.film == subfloor.FilmHarmful && has
		if seen[c] || !missing && !harmful {
			continue
		}
		seen[c] = true
		p := problem.Problem{At: room.Ref, Also: []problem.Ref{room.BuildUp.Ref}, Room: room.Name, Found: fmt.Sprintf("%s on %s in %s", room.BuildUp.Name, room.Subfloor, room.Name)}
		if missing {
			p.Code, p.Want, p.Fix = problem.FilmMissing, "a vapour film under a floating floor on a mineral subfloor", "add a film to the build-up, or check that the underlay or the covering brings one"
		} else {
			p.Code, p.Want, p.Fix = problem.FilmTraps, "no film on a wood subfloor, which must dry upwards", "make a build-up without a film for this room, unless the maker asks for one"
		}
		list.Add(p)
	}
}

// heatCautions name each build-up over a heated floor whose layers resist heat
// too much, or do not say how much.
func (r *Result) heatCautions(list *problem.List) {
	seen := map[*job.BuildUp]bool{}
	for _, room := range r.Job.Rooms {
		if !room.Heated || seen[room.BuildUp] {
			continue
		}
		seen[room.BuildUp] = true
		sum, missing := subfloor.HeatResistance(room.BuildUp)
		if len(missing) == 0 && sum.Cmp(subfloor.MostHeatResistance) <= 0 {
			continue
		}
		p := problem.Problem{Code: problem.HeatResistance, At: room.Ref, Also: []problem.Ref{room.BuildUp.Ref}, Room: room.Name,
			Found: fmt.Sprintf("%s resists by %s m2K/W over the heated floor of %s", room.BuildUp.Name, sum, room.Name),
			Want:  fmt.Sprintf("at most %s m2K/W for covering and layers together", subfloor.MostHeatResistance), Fix: "choose thinner layers, or ask the designer of the heating"}
		if len(missing) > 0 {
			p.Found = fmt.Sprintf("no Thermal resistance of %s over the heated floor of %s", strings.Join(missing, ", "), room.Name)
			p.Fix = "fill it in from the data sheets"
		}
		list.Add(p)
	}
}
