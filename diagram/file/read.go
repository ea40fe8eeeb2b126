package file

import (
	"errors"
	"fmt"
	"io"

	"clampline/diagram"
)

// Read returns the document that r holds, in this or an older version of the
// format. What is wrong with the text itself is an Errors; any other error
// comes from r.
func Read(r io.Reader) (*diagram.Document, error) {
	doc, _, err := readSealed(r)
	return doc, err
}

// readSealed is Read, with what the checksum says.
func readSealed(r io.Reader) (*diagram.Document, seal, error) {
	o, err := sheets().open(r)
	if err != nil {
		return nil, sealNone, err
	}
	sealed := takeSeal(o.top, o.text)
	if err := migrate(o.top, o.version, steps()); err != nil {
		return nil, sealed, Errors{refused(err.Error(), remedyMend)}
	}
	if o.version < Current {
		o.text = nil // places in it are those of another version
	}
	doc, err := build(o.top, o.text)
	return doc, sealed, err
}

// contents is all that a file holds.
type contents struct {
	info       diagram.Info
	shown      diagram.ID
	plans      []diagram.Plan
	parts      []diagram.Part
	feeders    []diagram.Feeder
	protectors []diagram.Protector
	surges     []diagram.Surge
	asides     []diagram.Aside
}

// build makes the document from the members of a file of the current version.
func build(top map[string]any, text []byte) (*diagram.Document, error) {
	r := &reader{object: top, homes: map[diagram.ID][]string{}}
	c := r.contents()
	if err := r.errors(text); err != nil {
		return nil, err
	}
	doc := diagram.New()
	_, err := doc.Edit(c.set)
	doc.Show(c.shown)
	if invalid := (*diagram.InvalidError)(nil); errors.As(err, &invalid) {
		r.invalid(invalid)
		return nil, r.errors(text)
	}
	return doc, err
}

func (r *reader) contents() contents {
	var c contents
	r.text("$schema", "", func(string) {})
	infoFields(r, &c.info)
	r.text(shownName, "", func(to string) { c.shown = diagram.ID(to) })
	c.plans = list(r, "plans", planFields)
	c.parts = list(r, "parts", partFields)
	c.feeders = list(r, "feeders", feederFields)
	c.protectors = list(r, "protectors", protectorFields)
	c.surges = list(r, "surges", surgeFields)
	c.asides = list(r, asidesName, asideFields)
	c.info.Extra = encodeExtra(r.object)
	return c
}

// list reads the records under the name.
func list[R any](r *reader, name string, describe func(fields, *R)) []R {
	value, ok := r.take(name)
	if !ok {
		return nil
	}
	items, ok := value.([]any)
	if !ok {
		r.mismatch(name, value, "a list", "put the records between [ and ]")
		return nil
	}
	out := make([]R, len(items))
	for i, item := range items {
		r.within(fmt.Sprintf("%s.%d", name, i), item, func() { describe(r, &out[i]) })
	}
	return out
}

// set replaces what a new document holds.
func (c *contents) set(tx *diagram.Tx) error {
	tx.Remove(diagram.FirstPlan)
	tx.SetInfo(c.info)
	for _, v := range c.plans {
		tx.SetPlan(v)
	}
	for _, v := range c.parts {
		tx.SetPart(v)
	}
	for _, v := range c.feeders {
		tx.SetFeeder(v)
	}
	for _, v := range c.protectors {
		tx.SetProtector(v)
	}
	for _, v := range c.surges {
		tx.SetSurge(v)
	}
	for _, v := range c.asides {
		tx.SetAside(v)
	}
	return nil
}

// invalid notes why the document refuses the records.
func (r *reader) invalid(err *diagram.InvalidError) {
	for _, p := range err.Problems {
		trail, recorded := r.homes[p.ID]
		if !recorded && p.Field != "plans" {
			trail = []string{"info"}
		}
		r.trail, r.id = trail, ""
		if p.ID.Valid() {
			r.id = p.ID
		}
		r.report(p.Field, p.What, p.Remedy)
	}
}
