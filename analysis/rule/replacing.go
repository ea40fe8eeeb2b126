package rule

import (
	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
)

// replaceIt stands in a finding for the change to another protector, until all
// that is found about the one that is there is known.
var replaceIt = analysis.Mend{Kind: "replace … by one that fits"}

// altered is the change that alters the protector; kind is that of
// analysis.NewMend.
func (s *site) altered(kind string, alter func(*diagram.Protector)) analysis.Mend {
	return analysis.MendProtector(s.protector.ID, kind, s.name(), alter)
}

// offerReplacements puts the change to another protector into the findings that
// ask for it.
func (s *site) offerReplacements(found []analysis.Finding) {
	for i := range found {
		f := &found[i]
		switch {
		case f.Mend.Kind != replaceIt.Kind:
		case s.tried != nil:
			f.Mend = analysis.Mend{}
		case s.node == nil: // of a place that is no part of a sheet too little is known to try others
			f.Mend = s.takeUsual()
		default:
			f.Mend = s.replacement(*f, found)
		}
	}
}

// replacement is the change that takes a finding away by another protector under
// the name of the one that is there: one of the library, or else a usual one; none
// where neither will do. All that is found about the one that is there is known.
func (s *site) replacement(f analysis.Finding, before []analysis.Finding) analysis.Mend {
	o := s.openingFor(f, before)
	if !o.possible() {
		return analysis.Mend{}
	}
	out := analysis.NewMend(replaceIt.Kind, s.name(), func(tx *diagram.Tx) error {
		replaceBy(tx, o.best())
		return nil
	})
	out.Opening = analysis.Opening{Bus: s.part.ID, Protector: s.protector.ID}
	out.Choices = func(own []library.Entry) []analysis.Choice { return s.replacements(o, own) }
	return out
}

// openingFor returns the opening in the place of the protector. The rule of the
// finding may find nothing as grave about another one there, and other rules only
// what is found about this one already: that is mended by itself.
func (s *site) openingFor(f analysis.Finding, before []analysis.Finding) *opening {
	old := s.protector
	if stated, ok := s.Document.Protector(old.ID); ok {
		old = stated // as its nameplate has it
	}
	known := map[analysis.Key]analysis.Severity{}
	for _, b := range before {
		known[b.Key()] = b.Severity
	}
	o := &opening{place: s.place, old: &old}
	o.against = func(x analysis.Finding) bool {
		if x.Rule == f.Rule {
			return x.Severity >= min(f.Severity, analysis.Warning)
		}
		return x.Severity >= analysis.Warning && x.Severity > known[x.Key()]
	}
	if usual, ok := s.usualInPlaceOf(old); ok {
		o.offer(usual)
	}
	return o
}

// replacements returns the entries that fit, each with the change that puts it
// in the place of the protector.
func (s *site) replacements(o *opening, own []library.Entry) []analysis.Choice {
	var out []analysis.Choice
	for _, c := range o.candidates(own) {
		mend := analysis.NewMend("replace … by "+library.Place(c.entry, "", "", "").Name, s.name(), func(tx *diagram.Tx) error {
			replaceBy(tx, c.protector)
			return nil
		})
		mend.Kind = replaceIt.Kind
		out = append(out, analysis.Choice{Entry: c.entry, Mend: mend})
	}
	return out
}

// replaceBy puts a protector in the place of the one of its id, unless that is
// gone.
func replaceBy(tx *diagram.Tx, next diagram.Protector) {
	if now, ok := tx.Document().Protector(next.ID); ok {
		next.Plan, next.Bus, next.Name, next.Offset = now.Plan, now.Bus, now.Name, now.Offset
		tx.SetProtector(next)
	}
}
