package rule

import (
	"context"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Input is what the rules look at. The topology is that of the document; Faults
// may be nil where fault currents are not known.
type Input struct {
	Document *diagram.Document
	Plan     diagram.ID
	Topology *analysis.Topology
	Faults   map[diagram.End]analysis.Fault
}

// siteRules returns the rules on protectors, by subject. The first ones look at
// nothing but the protector and the system that it is on.
func siteRules() []record[*site] {
	return slices.Concat(systemRules(), typeRules(), cascadeRules(), faultRules(), dischargeRules(), impulseRules(), breakerRules(), leadRules())
}

// systemRules returns the rules on whether a protector is made for a system. Where
// it is made for another voltage altogether nothing else about it matters.
func systemRules() []record[*site] {
	rules := slices.Concat(phaseRules(), earthingRules(), continuousRules())
	rules = where(func(s *site) bool { return !s.misplaced() }, rules...)
	return where(func(s *site) bool { return s.system.Known() }, slices.Concat(voltageRules(), rules)...)
}

// partRules returns the rules on the parts of the building with the protectors on
// them, by subject.
func partRules() []record[*place] {
	return slices.Concat(requiredRules(), riskRules(), distanceRules(), boardRules())
}

// Check returns the findings of all rules, sorted as by
// analysis.SortFindings. The cost grows with the number of records.
// It stops where the context ends, with its error.
func Check(ctx context.Context, in Input) ([]analysis.Finding, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	normal := topologyOnNormal(in)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	sheet := sheetOn(in, normal)
	out, rules := sheet.unusual(ctx), partRules()
	for part := range in.Document.Parts() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		p := sheet.placeOf(part)
		if p == nil {
			continue
		}
		out = append(out, p.found(rules)...)
		for _, protector := range p.protectors {
			out = append(out, sheet.check(p, protector)...)
		}
	}
	analysis.SortFindings(out)
	return out, ctx.Err()
}

// found returns what the rules find about the part.
func (p *place) found(rules []record[*place]) []analysis.Finding {
	out := found(rules, p)
	for i := range out {
		if out[i].Records == nil {
			out[i].Records, out[i].Critical = []diagram.ID{p.part.ID}, p.critical
		}
	}
	return out
}

func (s *sheet) check(p *place, protector diagram.Protector) []analysis.Finding {
	here := p.site(protector)
	out := append(found(s.onNameplate, nameplate{protector, here.under()}), found(s.onSite, here)...)
	for i := range out {
		out[i].Records = []diagram.ID{protector.ID, p.part.ID}
		out[i].Critical = p.critical
	}
	here.offerReplacements(out)
	return out
}

// CheckAt returns the findings on a protector if it stood on the part, as the only
// one there, whatever else does: as a function, since most of the work is the
// same for every protector. The function may not be called by several goroutines
// at a time.
func CheckAt(in Input, part diagram.ID) func(diagram.Protector) []analysis.Finding {
	host, _ := in.Document.Part(part)
	var p *place
	if host.ID != "" {
		p = newSheet(in).placeOf(host)
	}
	return func(protector diagram.Protector) []analysis.Finding {
		if p == nil {
			return nil
		}
		protector.Bus = part
		out := p.alone(protector)
		analysis.SortFindings(out)
		return out
	}
}

// Fits returns the findings on a protector on a bus of the system, wherever
// that is: on voltage, phases, earthing and continuous voltage. The names of
// protector and bus are those given.
func Fits(protector diagram.Protector, system diagram.System, codes diagram.Codes) []analysis.Finding {
	bus := diagram.Part{ID: "bus", Kind: diagram.Panel, Name: "the bus"}
	s := &sheet{codes: codes, iec: codes.FollowsIEC(system.Earthing.IsIEC())}
	here := (&place{sheet: s, part: bus, system: system}).site(protector)
	out := found(systemRules(), here)
	here.offerReplacements(out)
	for i := range out {
		out[i].Records = []diagram.ID{protector.ID}
	}
	analysis.SortFindings(out)
	return out
}

// Plausible returns what cannot be right on a nameplate, wherever the protector
// stands.
func Plausible(protector diagram.Protector) []analysis.Finding {
	out := found(nameplateRules(), nameplate{protector, nil})
	for i := range out {
		out[i].Records = []diagram.ID{protector.ID}
	}
	analysis.SortFindings(out)
	return out
}
