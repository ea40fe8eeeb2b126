package diagram

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram/unit"
)

// PlanDifference is a protector that two plans do not have alike: added where
// Before is nil, removed where After is.
type PlanDifference struct {
	Before, After *Protector
}

// PlanDifferences returns what the plan after has otherwise than the plan before,
// in the order of the parts on which the protectors hang.
func PlanDifferences(doc *Document, before, after ID) []PlanDifference {
	var out []PlanDifference
	for _, d := range pairs(doc, before, after) {
		if d.Before == nil || d.After == nil || len(d.changed()) > 0 {
			out = append(out, d)
		}
	}
	return out
}

// Counterparts returns for the protectors of one plan those that stand for them in
// another.
func Counterparts(doc *Document, from, to ID) map[ID]ID {
	out := map[ID]ID{}
	for _, d := range pairs(doc, from, to) {
		if d.Before != nil && d.After != nil {
			out[d.Before.ID] = d.After.ID
		}
	}
	return out
}

// pairs puts together what hangs on the same part: first what has the same name,
// then, of the rest, what is most alike.
func pairs(doc *Document, before, after ID) []PlanDifference {
	was, is := protectorsByBus(doc, before), protectorsByBus(doc, after)
	var out []PlanDifference
	for part := range doc.Parts() {
		out = append(out, pairsOn(was[part.ID], is[part.ID])...)
	}
	return out
}

func protectorsByBus(doc *Document, plan ID) map[ID][]*Protector {
	out := map[ID][]*Protector{}
	for p := range doc.ProtectorsOf(plan) {
		out[p.Bus] = append(out[p.Bus], &p)
	}
	return out
}

func pairsOn(was, is []*Protector) []PlanDifference {
	var candidates []PlanDifference
	for _, a := range is {
		for _, b := range was {
			candidates = append(candidates, PlanDifference{b, a})
		}
	}
	slices.SortStableFunc(candidates, func(x, y PlanDifference) int { return cmp.Compare(x.unlikeness(), y.unlikeness()) })
	var out []PlanDifference
	taken := map[*Protector]bool{}
	for _, c := range candidates {
		if !taken[c.Before] && !taken[c.After] {
			taken[c.Before], taken[c.After] = true, true
			out = append(out, c)
		}
	}
	for _, p := range is {
		if !taken[p] {
			out = append(out, PlanDifference{After: p})
		}
	}
	for _, p := range was {
		if !taken[p] {
			out = append(out, PlanDifference{Before: p})
		}
	}
	return out
}

// unlikeness is the smaller the more a pair belongs together.
func (d PlanDifference) unlikeness() int {
	if d.Before.Name != "" && d.Before.Name == d.After.Name {
		return -1
	}
	return len(d.changed())
}

// changed returns the fields in which a pair differs. To which plan they belong and
// where along the bus they are drawn are none.
func (d PlanDifference) changed() []*Field[Protector] {
	return slices.DeleteFunc(Changed(protectorFields, d.Before, d.After), func(f *Field[Protector]) bool { return f.Placed })
}

// Lines says what changed, a line for each figure and what weighs most first: "leads
// 18 in → 6 in". It has none for what was added or removed.
func (d PlanDifference) Lines(c unit.Convention) []string {
	if d.Before == nil || d.After == nil {
		return nil
	}
	changed := d.changed()
	slices.SortStableFunc(changed, func(a, b *Field[Protector]) int { return cmp.Compare(weightOf(a), weightOf(b)) })
	var lines []planLine
	for _, f := range changed {
		of, noun := d.nameOf(f, c)
		step := said(f, d.Before, c) + " → " + said(f, d.After, c)
		alike := func(l planLine) bool { return l.noun == noun && l.step == step && of != "" }
		if at := slices.IndexFunc(lines, alike); at >= 0 {
			lines[at].of = append(lines[at].of, of)
		} else {
			lines = append(lines, planLine{[]string{of}, noun, step})
		}
	}
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = unit.Visible(l.text())
	}
	return out
}

// planLine is one step that a figure takes, in several modes or conductors alike.
type planLine struct {
	of         []string // modes or conductors; one empty word for none
	noun, step string
}

func (l planLine) text() string {
	of := strings.Join(l.of, ", ") + " "
	if l.noun == "lead" && len(l.of) == 3 {
		return "leads " + l.step
	}
	return strings.TrimLeft(of, " ") + l.noun + " " + l.step
}

// nameOf returns the mode or conductor that a field is about, or nothing, and what of
// it the field is.
func (d PlanDifference) nameOf(f *Field[Protector], c unit.Convention) (of, noun string) {
	names := f.Names()
	if len(names) < 3 { // of a mode or a lead
		return "", f.Name(c)
	}
	of, noun, _ = strings.Cut(f.Name(c), " ")
	if names[2] == "level" {
		noun = string(cmp.Or(d.After.Rating, VPR))
	}
	return of, noun
}

// said is what a protector has in a field.
func said(f *Field[Protector], p *Protector, c unit.Convention) string {
	switch {
	case f.Sort == SortWord:
		return cmp.Or(f.Spoken(cmp.Or(f.Text(p), f.Default), c), f.Empty, "nothing")
	case f.Sort == SortFlag && !*f.Flag(p):
		return "no"
	}
	return cmp.Or(f.Plain(p, c), "nothing")
}

// weightOf is the smaller the more a change weighs: what sets the voltage comes
// first, what nothing is computed from last.
func weightOf(f *Field[Protector]) int {
	switch names := f.Names(); {
	case names[0] == "leads" && names[len(names)-1] == "length":
		return 0
	case names[len(names)-1] == "level":
		return 1
	case f.Key == "type":
		return 2
	case slices.Contains([]string{"name", "note", "price", "hours"}, f.Key):
		return 4
	}
	return 3
}
