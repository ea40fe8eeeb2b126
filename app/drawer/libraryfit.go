package drawer

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/library"
)

// fit is what is found about an entry if it stood on the selected bus. The zero
// value is not known.
type fit struct {
	known    bool
	findings []analysis.Finding
}

// suits reports whether the entry itself may stand there.
func (f fit) suits() bool { return f.known && rule.Suits(f.findings) }

// has reports whether something at least as grave is found.
func (f fit) has(least analysis.Severity) bool {
	return slices.ContainsFunc(f.findings, func(x analysis.Finding) bool { return x.Severity >= least })
}

// reason returns the first thing that speaks against it: what it is before how
// it would be installed, and of either the gravest.
func (f fit) reason() (analysis.Finding, bool) {
	var out analysis.Finding
	found := false
	for _, x := range f.findings {
		if x.Severity >= analysis.Warning && (!found || before(x, out)) {
			out, found = x, true
		}
	}
	return out, found
}

// before reports whether a finding speaks more against an entry than another.
func before(x, other analysis.Finding) bool {
	if rule.AboutDevice(x) != rule.AboutDevice(other) {
		return rule.AboutDevice(x)
	}
	return x.Severity > other.Severity
}

// fits are what was found about the entries of a library on one bus. An entry is
// checked when it is asked for: a check is dear, and few entries are seen.
type fits struct {
	buses  []diagram.ID
	result *analysis.Result
	check  func(library.Entry) []analysis.Finding // nil while nothing is to be checked
	found  map[diagram.Protector]fit              // by the result
	former map[diagram.Protector]fit              // by the one before, to stand while a newer one is due
}

// update takes other buses or another result.
func (f *fits) update(s LibraryState) {
	if !slices.Equal(s.Buses, f.buses) {
		*f = fits{buses: s.Buses}
	}
	f.check = s.Check
	if len(s.Buses) == 0 || s.Due {
		f.check = nil
	}
	if s.Result != f.result || f.found == nil {
		if len(f.found) > 0 {
			f.former = f.found
		}
		f.result, f.found = s.Result, map[diagram.Protector]fit{}
	}
}

// of returns what is found about an entry.
func (f *fits) of(e library.Entry) fit {
	now, ok := f.found[e.Protector]
	switch {
	case ok:
		return now
	case f.check == nil:
		return f.former[e.Protector]
	}
	now = fit{true, f.check(e)}
	f.found[e.Protector] = now
	return now
}

// againstText says in a line what speaks against an entry on the bus: "is made
// for 208Y/120, and the bus has 480Y/277".
func againstText(x analysis.Finding) string { return cmp.Or(x.Says, x.What) }
