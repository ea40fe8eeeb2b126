package rule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// placeOne adds the protector under an id and a name that nothing has, unless
// its part or plan is gone or what stands there will do.
func placeOne(tx *diagram.Tx, protector diagram.Protector, accept func(diagram.Protector) bool) {
	doc := tx.Document()
	host, ok := doc.Part(protector.Bus)
	if !ok || !host.Kind.TakesProtector() {
		return
	}
	if _, ok := doc.Plan(protector.Plan); !ok {
		return
	}
	for other := range doc.ProtectorsOf(protector.Plan) {
		if other.Bus == protector.Bus && accept(other) {
			return
		}
	}
	protector.ID, protector.Name = tx.NewProtectorID(), doc.NewProtectorName(protector.Plan)
	tx.SetProtector(protector)
}

// usualFor returns the usual protector for a part on which the system arrives,
// and whether there is one: its ratings are known, and it is of the practice
// that counts. The usual one goes by the earthing, and a sheet may be checked by
// the other practice.
func (s *sheet) usualFor(part diagram.Part, system diagram.System) (diagram.Protector, bool) {
	protector, ok := analysis.TypicalOn(part, system)
	return protector, ok && anyProtector(protector) && isIEC(protector.Type) == s.iec
}

// sameAs reports whether a stated voltage is that of the other.
func sameAs(stated, other float64) bool { return stated > 0 && analysis.SameVoltage(stated, other) }

// takeUsual is the change that puts a usual protector for its place under the
// name of the one that is there, or none where none is usual.
func (s *site) takeUsual() analysis.Mend {
	usual, ok := s.usualInPlaceOf(s.protector)
	if !ok {
		return analysis.Mend{}
	}
	return s.altered("replace it by a usual one for "+usual.System.String(), func(p *diagram.Protector) {
		*p, _ = s.usualInPlaceOf(*p)
	})
}

// usualInPlaceOf returns a usual protector for the place as it stands where the
// old one does, and false where none is usual, or where that may not stand there
// by its type. It is another device: what was noted and priced goes with the old
// one, and what that asked of its breaker. What does not depend on the system
// stays: the place, the leads, the hours, and the currents where the type stays,
// but for an SCCR that is not enough.
func (s *site) usualInPlaceOf(p diagram.Protector) (diagram.Protector, bool) {
	usual, ok := s.usualFor(s.part, s.system)
	if !ok || s.pointOfUse() && isIEC(s.protector.Type) != s.iec {
		return p, false
	}
	usual.SCCR = stepFrom(s.available().current)
	p.System, p.Rating, p.Modes = usual.System, usual.Rating, usual.Modes
	p.Note, p.Price = usual.Note, 0
	p.Breaker.Least, p.Breaker.Most = usual.Breaker.Least, usual.Breaker.Most
	if p.Type == "" || isIEC(p.Type) != isIEC(usual.Type) {
		p.Type, p.In, p.Imax, p.Iimp, p.SCCR = usual.Type, usual.In, usual.Imax, usual.Iimp, usual.SCCR
		thicken(&p.Leads, usual.Leads)
	}
	p.SCCR = max(p.SCCR, usual.SCCR)
	if p.Breaker.Poles > 0 {
		p.Breaker.Poles = usual.Breaker.Poles
	}
	after := site{place: s.place, protector: p}
	return p, !after.wrongPlace()
}

// thicken makes no lead of a known size thinner than those of another.
func thicken(leads *diagram.Leads, least diagram.Leads) {
	for _, pair := range []struct{ lead, least *diagram.Lead }{
		{&leads.Phase, &least.Phase}, {&leads.Neutral, &least.Neutral}, {&leads.Earth, &least.Earth},
	} {
		if pair.lead.Area > 0 {
			pair.lead.Area = max(pair.lead.Area, pair.least.Area)
		}
	}
}
