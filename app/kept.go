package app

import "slices"

// kept are whole judgements of one state of a document: one who looks from one plan to
// another and back sees each at once.
type kept []judgement

// mostKept is how many plans are looked at by turns.
const mostKept = 2

// keep notes a judgement, unless something of it is still to come. Those of another
// state of the document are let go.
func (k *kept) keep(j judgement) {
	whole := j.result != nil && j.result.Due == 0 && j.result.Basis == j.basis && !j.coarse && j.unsolved == nil
	if !whole || j.version == 0 {
		return
	}
	rest := slices.DeleteFunc(slices.Clone(*k), func(old judgement) bool {
		return old.subject == j.subject || old.doc != j.doc || old.version != j.version
	})
	*k = append(kept{j}, rest[:min(len(rest), mostKept-1)]...)
}

// of returns the judgement that was asked for, where it is known.
func (k kept) of(r request) (judgement, bool) {
	at := slices.IndexFunc(k, func(j judgement) bool { return j.subject == r.subject && j.version == r.version && r.version != 0 })
	if at < 0 {
		return judgement{}, false
	}
	return k[at], true
}

// recall hands over what is known; nothing else is to come.
func (j *judge) recall(out judgement) {
	j.disturb()
	j.waiting = nil
	if j.current != nil {
		j.cut(j.current)
	}
	j.give(out)
	j.next()
}
