package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// record is one rule about things of a sort: a protector at its site, a part at its
// place, a nameplate.
type record[T any] struct {
	id      string // by which its findings are known: it is never changed, and never given to another rule
	subject string
	look    func(T) []analysis.Finding

	// silencedBy are the rules that have said enough: where one of them finds
	// something about the same records, this one says nothing.
	silencedBy []string
}

// said is what a rule says of what it found.
type said struct {
	severity          analysis.Severity
	detail            string // which of several about the same records
	who               string // with which the sentence begins, before what: the protector on its bus; mostly empty
	what, why, remedy string
	source            string
	working           analysis.Working
	mend              analysis.Mend

	records  []diagram.ID // what it is about, where that is not just what the rule looks at
	critical bool         // one of them is
}

// tells returns a rule: finds returns what there is to be told, as facts of a type of
// the rule, and says puts one of them into sentences.
func tells[T, F any](id string, finds func(T) []F, says func(T, F) said) record[T] {
	return record[T]{id: id, look: func(thing T) []analysis.Finding {
		var out []analysis.Finding
		for _, facts := range finds(thing) {
			out = append(out, finding(facts, says(thing, facts)))
		}
		return out
	}}
}

// tellsOne is tells for a rule that finds one thing at most.
func tellsOne[T, F any](id string, finds func(T) (F, bool), says func(T, F) said) record[T] {
	return tells(id, func(thing T) []F {
		if facts, ok := finds(thing); ok {
			return []F{facts}
		}
		return nil
	}, says)
}

// tellsAll is tells for a rule that says in one what it finds in several.
func tellsAll[T, E any](id string, finds func(T) []E, says func(T, []E) said) record[T] {
	return tellsOne(id, func(thing T) ([]E, bool) {
		all := finds(thing)
		return all, len(all) > 0
	}, says)
}

// tellsIf is tells for a rule without facts: it says no more than that it applies.
func tellsIf[T any](id string, applies func(T) bool, says func(T) said) record[T] {
	return tellsOne(id, func(thing T) (any, bool) { return nil, applies(thing) }, func(thing T, _ any) said { return says(thing) })
}

// about returns the rules as ones on a subject.
func about[T any](subject string, rules ...record[T]) []record[T] {
	for i := range rules {
		rules[i].subject = subject
	}
	return rules
}

// unless returns the rule as one that is silenced by others.
func (r record[T]) unless(rules ...string) record[T] {
	r.silencedBy = append(r.silencedBy, rules...)
	return r
}

// where returns the rules as ones that look only at what the test accepts.
func where[T any](accepts func(T) bool, rules ...record[T]) []record[T] {
	for i := range rules {
		look := rules[i].look
		rules[i].look = func(thing T) []analysis.Finding {
			if !accepts(thing) {
				return nil
			}
			return look(thing)
		}
	}
	return rules
}

func finding(facts any, s said) analysis.Finding {
	out := analysis.Finding{
		Detail: s.detail, Facts: facts, Severity: s.severity,
		What: s.what, Why: s.why, Remedy: s.remedy, Source: s.source, Working: s.working, Mend: s.mend,
		Records: s.records, Critical: s.critical,
	}
	if s.who != "" {
		out.What, out.Says = s.who+" "+s.what, s.what
	}
	return out
}

// found returns what rules find about one thing, those that are silenced left out.
func found[T any](rules []record[T], thing T) []analysis.Finding {
	var out []analysis.Finding
	for _, r := range rules {
		for _, f := range r.look(thing) {
			f.Rule, f.Subject = r.id, r.subject
			out = append(out, f)
		}
	}
	speaks := func(id string) bool {
		return slices.ContainsFunc(out, func(f analysis.Finding) bool { return f.Rule == id })
	}
	var silenced []string
	for _, r := range rules {
		if slices.ContainsFunc(r.silencedBy, speaks) {
			silenced = append(silenced, r.id)
		}
	}
	return slices.DeleteFunc(out, func(f analysis.Finding) bool { return slices.Contains(silenced, f.Rule) })
}
