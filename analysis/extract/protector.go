package extract

import (
	"clampline/analysis"
	"clampline/analysis/protector"
	"clampline/diagram"
)

func bondInductance() float64 { return protector.SelfInductance(bondLength, radiusOf(bondArea)) }

// leastLevel is the lowest rating that is taken for one, V: no protector of a
// power system has less.
const leastLevel = 1

// mostAmps is the highest nominal discharge current that is taken for one, A.
const mostAmps = 1e6

// Nameplate returns what a protector states, as far as a surge is concerned,
// and false where no connected mode states a voltage of a volt or more. system is that of its
// bus, on which the protector stands as analysis.Seated has it.
func Nameplate(p diagram.Protector, system diagram.System) (protector.Nameplate, bool) {
	p = analysis.Seated(p, system)
	made := system
	if p.System.Known() {
		made = p.System
	}
	out := protector.Nameplate{Lines: made.Lines(), Neutral: made.Neutral}
	if p.Rating == diagram.Up {
		out.Rating, out.In = protector.Up, min(p.In, mostAmps)
	}
	known := false
	for _, mode := range diagram.Modes() {
		r := p.Modes[mode]
		if !r.Connected || r.Level < leastLevel || !made.HasMode(mode) {
			continue
		}
		out.Modes[mode] = protector.ModePlate{Connected: true, Level: r.Level, MCOV: r.MCOV, Switching: r.Switching}
		known = true
	}
	return out, known
}

// leadsOf returns the leads of a protector.
func leadsOf(p diagram.Protector) protector.Leads {
	lead := func(l diagram.Lead) protector.Lead { return protector.Lead{Length: l.Length, Area: l.Area} }
	out := protector.Leads{Phase: lead(p.Leads.Phase), Neutral: lead(p.Leads.Neutral), Earth: lead(p.Leads.Earth), Coils: p.Leads.Coils}
	switch p.Leads.Run {
	case diagram.Bundled:
		out.Run = protector.Bundled
	case diagram.Twisted:
		out.Run = protector.Twisted
	}
	return out
}

// addProtectors puts the protectors of the plan on their buses.
func (x *extractor) addProtectors() {
	for p := range x.Document.ProtectorsOf(x.Plan) {
		bus := x.hostOf(p)
		if bus == None {
			continue
		}
		host := x.places[x.hostPlace(p)]
		if x.Failed[p.ID] {
			x.assume(p.ID, "is left out: the surge destroys it", "by its charge, against its ratings")
			continue
		}
		plate, ok := Nameplate(p, host.system)
		model := x.Models[plate]
		if !ok || model == nil {
			x.assume(p.ID, "is left out: it states no voltage in any mode that it has", "from the sheet")
			continue
		}
		for _, note := range model.Notes {
			x.assume(p.ID, note, "of the model")
		}
		name := x.unique(x.Document.NameOf(p.ID))
		if factor := x.Vary.clamp(p.ID); factor != 1 {
			model = model.Scaled(factor)
		}
		leads := leadsOf(x.Vary.withLeads(analysis.Seated(p, host.system)))
		leads.Tone = x.tone
		x.out.Protectors = append(x.out.Protectors, Installed{p.ID, model.Install(x.net, name, x.net.Buses[bus], leads)})
	}
}

func (x *extractor) hostPlace(p diagram.Protector) int {
	if at, ok := x.at[diagram.End{Part: p.Bus}]; ok {
		return at
	}
	return None
}

func (x *extractor) hostOf(p diagram.Protector) int {
	if at := x.hostPlace(p); at != None {
		return x.places[at].bus
	}
	return None
}

// Nameplates returns the distinct nameplates of the plan, in the order of the
// protectors, so that each is calibrated once.
func Nameplates(in Input) []protector.Nameplate {
	var out []protector.Nameplate
	seen := map[protector.Nameplate]bool{}
	for p := range in.Document.ProtectorsOf(in.Plan) {
		node := in.Topology.Nodes[diagram.End{Part: p.Bus}]
		if node == nil {
			continue
		}
		if plate, ok := Nameplate(p, node.System); ok && !seen[plate] {
			seen[plate] = true
			out = append(out, plate)
		}
	}
	return out
}
