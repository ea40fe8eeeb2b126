package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// currents finds discharge currents that contradict each other, or the type.
func (p nameplate) currents() []analysis.Finding {
	var out []analysis.Finding
	if p.Imax > 0 && p.Imax < p.In {
		f := p.finding(analysis.Warning, "has an Imax below its In", "the current that it withstands once cannot be below the one that it withstands fifteen times",
			"read both off the nameplate", "IEC 61643-11:2011 clause 3, definitions "+recalled)
		f.Working = ampereSteps("In", p.In, "Imax", p.Imax)
		out = append(out, f)
	}
	if p.Imax > 0 && p.Imax < p.Iimp {
		f := p.finding(analysis.Warning, "has an Imax below its Iimp", "a 10/350 wave carries many times the charge of an 8/20 wave of the same crest: what withstands the first withstands the second",
			"read both off the nameplate", "waves of IEC 62305-1:2010 annex B and IEC 60060-1:2010")
		f.Working = ampereSteps("Imax", p.Imax, "Iimp", p.Iimp)
		out = append(out, f)
	}
	if p.Type == diagram.ClassI && p.Iimp <= 0 {
		out = append(out, p.finding(analysis.Warning, "is class I and states no Iimp", "class I is the test with Iimp; without it nobody can say what share of a strike it carries",
			"read it off the nameplate, or correct the class", "IEC 61643-11:2011, class I tests"))
	}
	return append(out, p.pointOfUse()...)
}

// mostOfTypeThree is the In up to which a protector for the point of use may
// well be one (common practice, no source).
const mostOfTypeThree = 10e3

func (p nameplate) pointOfUse() []analysis.Finding {
	small := p.Type == diagram.Type3 || p.Type == diagram.ClassIII
	if !small || p.In <= mostOfTypeThree && p.Iimp <= 0 {
		return nil
	}
	f := p.finding(analysis.Remark, fmt.Sprintf("is %s and states the currents of a larger one", p.Type),
		"a protector for the point of use is seldom rated for so much", "read type and currents off the nameplate", commonPractice)
	f.Working = ampereSteps("In", p.In, "Iimp", p.Iimp)
	return []analysis.Finding{f}
}

func ampereSteps(firstName string, first float64, secondName string, second float64) analysis.Working {
	var out analysis.Working
	for _, figure := range []struct {
		name    string
		amperes float64
	}{{firstName, first}, {secondName, second}} {
		if figure.amperes > 0 {
			out = append(out, analysis.Step{Label: figure.name, Result: figure.amperes / 1e3, Unit: "kA", Source: fromSheet})
		}
	}
	return out
}

// row is the values that a standard has for a current, in kA.
type row struct {
	name   string
	values []float64
	source string
}

var (
	inOfTypeOne = row{"In", []float64{10, 20}, "UL 1449, type 1: public summary of the 3rd edition"}
	inOfType    = row{"In", []float64{3, 5, 10, 20}, "UL 1449: public summary of the 3rd edition"}
	inOfClass   = row{"In", []float64{0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 2.5, 3, 5, 10, 15, 20}, "IEC 61643-11, preferred values: public summary"}
	iimpOfClass = row{"Iimp", []float64{1, 2, 5, 10, 12.5, 20, 25}, "IEC 61643-11, preferred values: public summary"}
	sccrSteps   = row{"SCCR", []float64{5, 10, 14, 18, 22, 25, 30, 42, 50, 65, 85, 100, 125, 150, 200}, "usual values, from memory; " + commonPractice}
)

// has reports whether the row has a current, A.
func (r row) has(amperes float64) bool {
	return slices.ContainsFunc(r.values, func(kiloamperes float64) bool { return sameCurrent(kiloamperes*1e3, amperes) })
}

// sameCurrent leaves room for the rounding of a current that was typed in kA.
func sameCurrent(a, b float64) bool { return a-b < 1e-3 && b-a < 1e-3 }

// currentSteps finds discharge currents that are none of the values of the
// standard. UL 1449 has no others for a listing; the values of IEC are preferred
// ones, below whose highest few others are sold.
func (p nameplate) currentSteps() []analysis.Finding {
	var out []analysis.Finding
	switch {
	case p.In <= 0:
	case isIEC(p.Type):
		out = append(out, p.offRow(inOfClass, p.In)...)
	case p.Type == diagram.Type1:
		out = append(out, p.offRow(inOfTypeOne, p.In)...)
	case p.Type != "":
		out = append(out, p.offRow(inOfType, p.In)...)
	}
	if p.Iimp > 0 && isIEC(p.Type) {
		out = append(out, p.offRow(iimpOfClass, p.Iimp)...)
	}
	return out
}

// offRow is the finding on a current that is not of a row.
func (p nameplate) offRow(r row, amperes float64) []analysis.Finding {
	highest := r.values[len(r.values)-1] * 1e3
	if r.has(amperes) || isIEC(p.Type) && amperes > highest {
		return nil
	}
	f := p.finding(analysis.Remark, fmt.Sprintf("states an %s of %s, which is none of the usual values", r.name, kiloamperes(amperes)),
		"the standard has "+r.text(), "see whether it is another current, or a slip; mind amperes and kiloamperes", r.source)
	if p.Type == diagram.Type1 && inOfType.has(amperes) {
		f.Severity = analysis.Warning
		f.What = p.name() + " is type 1 and states an In of " + kiloamperes(amperes)
	}
	return []analysis.Finding{f}
}

// text writes the row: "10 or 20 kA", "3, 5, 10 or 20 kA".
func (r row) text() string {
	out := ""
	for i, value := range r.values {
		switch {
		case i == 0:
		case i == len(r.values)-1:
			out += " or "
		default:
			out += ", "
		}
		out += analysis.Figure(value)
	}
	return out + "\u00a0kA"
}

// shortCircuitSteps finds an SCCR that is none of the usual values of North
// America.
func (p nameplate) shortCircuitSteps() []analysis.Finding {
	if p.SCCR <= 0 || p.Type == "" || isIEC(p.Type) || sccrSteps.has(p.SCCR) {
		return nil
	}
	return []analysis.Finding{p.finding(analysis.Remark, "states an SCCR of "+kiloamperes(p.SCCR)+", which is none of the usual values",
		"usual are "+sccrSteps.text(), "read it off the nameplate; mind amperes and kiloamperes", sccrSteps.source)}
}
