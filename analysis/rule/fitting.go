package rule

import (
	"cmp"
	"slices"
	"sync"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/library"
)

// builtIn are the kinds that come with the program.
var builtIn = sync.OnceValue(library.BuiltIn)

// protectorsOn returns the protectors on a part, or the one that is tried there
// alone. The caller must not alter the slice.
func (s *sheet) protectorsOn(part diagram.ID) []diagram.Protector {
	if s.tried != nil && s.tried.Bus == part {
		return []diagram.Protector{*s.tried}
	}
	return s.index.ProtectorsOn(part)
}

// alone returns the findings on a protector as the only one on the place,
// without changes to another one.
func (p *place) alone(protector diagram.Protector) []analysis.Finding {
	laid := *p.layout() // found once for all that are tried
	laid.stoodIn = map[diagram.ID]bool{}
	trial := *p.sheet
	trial.laid, trial.tried, trial.counted = &laid, &protector, map[diagram.ID][]diagram.Protector{}
	one := *p
	one.sheet, one.protectors = &trial, []diagram.Protector{protector}
	return trial.check(&one, protector)
}

// AboutDevice reports whether a finding on a protector is about what that is, and
// not about how it is installed.
func AboutDevice(f analysis.Finding) bool {
	return f.Subject != analysis.SubjectLeads && f.Subject != analysis.SubjectBreaker
}

// Suits reports whether a protector of which CheckAt finds this may stand there:
// neither an error nor a warning is about what it is. What is found about leads
// and breaker is mended where it is installed.
func Suits(found []analysis.Finding) bool {
	return !slices.ContainsFunc(found, func(f analysis.Finding) bool { return f.Severity >= analysis.Warning && AboutDevice(f) })
}

// opening is where a protector is wanted: besides what stands there, or in the
// place of one.
type opening struct {
	*place
	old     *diagram.Protector           // that it takes the place of, or nil
	accept  func(diagram.Protector) bool // what is asked for besides that it fits; nil for nothing
	against func(analysis.Finding) bool  // whether a finding about a device rules that out
	usual   *candidate                   // that comes in where the library has none that will do as it is; nil for none
}

// candidate is a protector as it would stand in an opening.
type candidate struct {
	entry     library.Entry // zero for the usual one
	protector diagram.Protector
	spare     int // terminals for lines that are not there
	faults    int // warnings and errors on how it would be installed
}

// of returns the protector that an entry becomes.
func (o *opening) of(e library.Entry) diagram.Protector {
	if o.old != nil {
		p := library.InPlaceOf(*o.old, e, func(note string) bool { return library.IsNote(builtIn(), note) })
		thicken(&p.Leads, e.Protector.Leads)
		return p
	}
	return library.Place(e, o.Plan, o.part.ID, "")
}

// offer takes a usual protector if it will do.
func (o *opening) offer(usual diagram.Protector) {
	if c, ok := o.try(usual); ok {
		o.usual = &c
	}
}

// try reports whether a protector will do here, and how. Where its breaker is not
// as it asks for, or is missing, it gets one that is.
func (o *opening) try(p diagram.Protector) (candidate, bool) {
	if !o.system.Known() || !anyProtector(p) || isIEC(p.Type) != o.iec || o.accept != nil && !o.accept(p) {
		return candidate{}, false
	}
	faults, ok := o.faults(p)
	if q := o.onBreaker(p); faults > 0 && q != p {
		p = q
		faults, ok = o.faults(p)
	}
	lines := analysis.LinesOf(o.part, o.system)
	return candidate{protector: p, spare: max(p.System.Lines()-lines, 0), faults: faults}, ok
}

// onBreaker returns the protector on a breaker as it asks for.
func (o *opening) onBreaker(p diagram.Protector) diagram.Protector {
	switch b := &p.Breaker; {
	case b.Shared:
	case b.Rated <= 0 && (b.Least > 0 || b.Most > 0):
		b.Rated, b.Poles = cmp.Or(b.Least, b.Most), min(p.System.Lines(), o.system.Lines())
	case b.Most > 0 && b.Rated > b.Most:
		b.Rated = b.Most
	case b.Rated < b.Least:
		b.Rated = b.Least
	}
	return p
}

// faults counts the warnings and errors on how a protector would be installed
// alone here, and reports whether nothing rules it out.
func (o *opening) faults(p diagram.Protector) (count int, ok bool) {
	ok = true
	for _, f := range o.alone(p) {
		switch {
		case AboutDevice(f):
			ok = ok && !o.against(f)
		case f.Severity >= analysis.Warning:
			count++
		}
	}
	return count, ok
}

// possible reports whether anything at all will do.
func (o *opening) possible() bool {
	return o.usual != nil || o.system.Known() && slices.ContainsFunc(builtIn(), func(e library.Entry) bool {
		_, ok := o.try(o.of(e))
		return ok
	})
}

// candidates returns the entries that will do, the best first: made for the lines
// that are there, as it can be installed, of the type that was there before or is
// usual there, and that lets the least through.
func (o *opening) candidates(own []library.Entry) []candidate {
	var out []candidate
	for _, e := range slices.Concat(own, builtIn()) {
		if c, ok := o.try(o.of(e)); ok {
			c.entry = e
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		return cmp.Or(
			cmp.Compare(a.spare, b.spare),
			cmp.Compare(a.faults, b.faults),
			cmp.Compare(o.strange(a.protector), o.strange(b.protector)),
			cmp.Compare(lead.LineLevel(&a.protector), lead.LineLevel(&b.protector)),
		)
	})
	return out
}

// strange is 1 for a protector of another type than was there, or where that is of
// the other practice or none, than is usual.
func (o *opening) strange(p diagram.Protector) int {
	usual, _ := o.usualFor(o.part, o.system)
	wanted := usual.Type
	if o.old != nil && o.old.Type != "" && isIEC(o.old.Type) == o.iec {
		wanted = o.old.Type
	}
	if p.Type == wanted {
		return 0
	}
	return 1
}

// best returns what to put there where nobody chooses: of the library, unless the
// usual one does better. Something must be possible.
func (o *opening) best() diagram.Protector {
	all := o.candidates(nil)
	if o.usual != nil && (len(all) == 0 || all[0].spare > o.usual.spare || all[0].faults > o.usual.faults) {
		return o.usual.protector
	}
	return all[0].protector
}
