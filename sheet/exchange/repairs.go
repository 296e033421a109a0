package exchange

import (
	"laybill/estimate"
	"laybill/estimate/measure"
)

// repaired are the places where planks are replaced and nothing else is laid.
func repaired(r *estimate.Result) []repairedEntry {
	entries := make([]repairedEntry, len(r.Building.Repaired))
	for i, room := range r.Building.Repaired {
		entries[i] = repairedEntry{Apartment: room.Apartment.Name, Type: room.Spec.Type, Room: room.Spec.Name, Floor: room.Apartment.Floor, Block: room.Apartment.Block,
			Area: dec(room.Area.Decimal(measure.M2, areaPlaces))}
	}
	return entries
}

func repairs(r *estimate.Result) []repairEntry {
	entries := make([]repairEntry, len(r.Building.Repairs))
	for i, repair := range r.Building.Repairs {
		p := repair.Product
		entries[i] = repairEntry{place: placeOf(repair.At), Product: p.Code, Method: repair.Method.Name, Pieces: repair.Pieces, Length: mm(repair.Length),
			PlankLength: mm(p.Length), PlankWidth: mm(p.Width), Kerf: mm(p.Kerf), FromStock: repair.FromStock, NewPlanks: repair.NewPlanks(), Rows: repair.Rows}
	}
	return entries
}
