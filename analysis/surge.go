package analysis

import (
	"fmt"

	"clampline/diagram"
)

// SurgeResult is what one surge case does to a building.
type SurgeResult struct {
	Surge       diagram.Surge
	Buses       map[diagram.ID][]Peak // boards and loads that it reaches: one for each mode that the bus has, in the order of the modes
	Protectors  map[diagram.ID][]Duty // those in its reach: one for each mode that the protector has, in the order of the modes
	Balance     float64               // what the balance of energy lacks, as a share of what was delivered
	Delivered   float64               // J, by the source of the surge, its own resistance included
	Absorbed    float64               // J of it, by all protectors together
	Step        float64               // s, of the computation
	Duration    float64               // s
	Assumptions []Assumption

	// Failed are the protectors that the surge destroys, sorted. All else is what
	// comes about without them; what they took before is among Protectors.
	Failed []diagram.ID

	// Origins are the results of a case that arrives at many places, one for each.
	// The case itself has the worst of each figure. Empty for one place.
	Origins []SurgeResult

	// Taken are the results with the loads of which the sheet does not say what a
	// surge meets there first open, then input filters. The case itself has the worse
	// of each figure. Empty where the sheet says it of all.
	Taken []SurgeResult
}

// From returns what the case does where it arrives at one of its places, with the
// loads of which nothing is said taken in one way; the case itself where it has one
// place and one way.
func (r SurgeResult) From(origin diagram.ID, filtered bool) SurgeResult {
	for _, one := range r.Origins {
		if one.Surge.Part == origin {
			return one.From("", filtered)
		}
	}
	switch {
	case len(r.Taken) == 0:
		return r
	case filtered:
		return r.Taken[1]
	}
	return r.Taken[0]
}

// Peak is the greatest voltage in a mode of a bus in one surge case.
type Peak struct {
	Mode    Mode
	Volts   float64    // V, magnitude
	At      float64    // s after the surge begins
	Between string     // the conductors between which it stands: "A-N"
	Origin  diagram.ID // the part at which the surge arrived, of a case with many; empty for one place

	Filtered bool // loads of which the sheet says nothing are input filters here; else open, or there are none
}

// Duty is what one mode of a protector goes through in one surge case: each
// figure that of the line on which it is greatest.
type Duty struct {
	Mode   Mode
	Amps   float64 // A, magnitude
	At     float64 // s after the surge begins
	Charge float64 // A s
	Energy float64 // J
	Allows float64 // A s, the most that a rating of the protector allows; 0 not known
	By     string  // that rating: "Iimp of 12.5 kA"
}

// Assumption is something that the sheet does not say and that the computation
// took so.
type Assumption struct {
	Record diagram.ID
	Text   string // begins with what the record is followed by: "its size is taken as …"
	Source string
}

// Worst returns the greatest peak of a bus in a mode, and false where the surge
// does not reach it.
func (r SurgeResult) Worst(bus diagram.ID, mode Mode) (Peak, bool) {
	for _, peak := range r.Buses[bus] {
		if peak.Mode == mode {
			return peak, true
		}
	}
	return Peak{}, false
}

// Origins returns a surge case once for each place at which it arrives, in the order
// of the ids; itself where that is one place. A place counts that is fed and whose
// system is known.
func Origins(doc *diagram.Document, topology *Topology, s diagram.Surge) []diagram.Surge {
	if s.Places == "" {
		return []diagram.Surge{s}
	}
	zone := zoneOf(doc, topology, s.Part)
	var out []diagram.Surge
	for part := range doc.Parts() {
		node := topology.Node(part)
		switch {
		case !s.Places.Has(part.Kind) || node == nil || !node.Fed || !node.System.Known() || zone != nil && *zone != node.Zone,
			s.Switching != "" && s.Switching != part.Switches(),
			s.Category != "" && s.Category != CategoryOf(doc, topology, part):
			continue
		}
		one := s
		one.Part, one.Places, one.Category, one.Switching = part.ID, "", "", ""
		out = append(out, one)
	}
	return out
}

// zoneOf returns the transformer zone of a part, and nil where none is named.
func zoneOf(doc *diagram.Document, topology *Topology, id diagram.ID) *diagram.End {
	part, ok := doc.Part(id)
	if !ok {
		return nil
	}
	if node := topology.Node(part); node != nil {
		return &node.Zone
	}
	return nil
}

// SurgeProblem is why a surge case cannot be solved, and what to do. It is about the
// part at which the surge arrives, where one is named.
func SurgeProblem(doc *diagram.Document, s diagram.Surge, what, remedy string) diagram.Problem {
	return diagram.Problem{ID: s.Part, Place: "surge case " + SurgeName(doc, s), What: what, Remedy: remedy}
}

// ArrivesAt says where a surge case arrives.
func ArrivesAt(doc *diagram.Document, s diagram.Surge) string {
	where := doc.NameOf(s.Part)
	switch {
	case s.Places == "" && s.Part == "":
		return "the supply in use"
	case s.Places == "":
		return where
	}
	out := string(s.Places)
	if s.Category != "" {
		out += " of location category " + string(s.Category)
	}
	if s.Switching != "" {
		out += " (" + switchingWord(s.Switching) + ")"
	}
	if s.Part != "" {
		out += " in the zone of " + where
	}
	return out + ", one after the other"
}

func switchingWord(s diagram.Switching) string {
	if s == diagram.OrdinarySwitching {
		return "ordinary places"
	}
	return "those that switch " + string(s)
}

// SurgeName returns what people call a surge case.
func SurgeName(doc *diagram.Document, s diagram.Surge) string {
	if s.Name != "" {
		return s.Name
	}
	where := "supply"
	if s.Part != "" {
		where = doc.NameOf(s.Part)
	}
	if s.Places != "" {
		where = string(s.Places)
	}
	return fmt.Sprintf("%s: %s, %s", where, s.Wave, s.Path)
}
