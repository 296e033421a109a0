package building

import "laybill/estimate/job"

// covered are the openings whose profile belongs to the room on the other side:
// that room's row names it, or the build-ups of both rooms have one for every
// opening, and the other room's name comes first.
func covered(rooms []*job.Room) map[*job.Opening]bool {
	covered := map[*job.Opening]bool{}
	for _, d := range job.Doorways(rooms) {
		switch {
		case d.Opening.Profile != nil:
			covered[d.Back] = true
		case d.Back.Profile != nil:
			covered[d.Opening] = true
		case hasProfiles(d.Room):
			covered[d.Back] = true
		}
	}
	return covered
}

// hasProfiles tells whether the room's build-up has a profile for every opening.
func hasProfiles(room *job.Room) bool {
	for _, line := range room.BuildUp.Lines {
		if line.GivesProfiles() {
			return true
		}
	}
	return false
}

func (c *cache) cover(openings []Opening) {
	for i, o := range openings {
		openings[i].Covered = o.Spec != nil && c.covered[o.Spec]
	}
}

// TakesProfile tells whether a profile of the build-up is due to the opening: no
// row names one for it, and the room on its other side has none.
func (o Opening) TakesProfile() bool { return o.Profile == nil && !o.Covered }

// ProfilesIn are the profiles that stand in one of the room's openings: the one
// that a row names, else those that the build-up has for every opening.
func (r *Room) ProfilesIn(o Opening) []*job.Product {
	if o.Profile != nil {
		return []*job.Product{o.Profile}
	}
	var profiles []*job.Product
	for _, line := range r.Spec.BuildUp.Lines {
		if line.GivesProfiles() && o.TakesProfile() {
			profiles = append(profiles, line.Product)
		}
	}
	return profiles
}
