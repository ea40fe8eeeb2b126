package details

import (
	"regexp"
	"slices"
	"testing"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// foreign finds a word of the other convention.
var foreign = map[unit.Convention]*regexp.Regexp{
	unit.NorthAmerican: regexp.MustCompile(`(?i)\b(un)?earth(ed|ing)?\b|\baluminium\b|\bmetres?\b|\bPE\b|\bL-PE\b`),
	unit.IEC:           regexp.MustCompile(`(?i)\b(un)?ground(ed|ing)?\b|\baluminum\b|\b[LN]-G\b`),
}

// said returns every word of a form: labels, headings, what stands in empty fields,
// lists and checks.
func said[R comparable](t *testing.T, doc *diagram.Document, aim func(Editor) target[R], rows []row[R]) []string {
	var out []string
	for _, r := range rows {
		out = append(out, unit.SentenceCase(r.label))
	}
	for _, g := range newBench(t, doc, aim, rows).grips {
		out = append(out, g.name)
		switch o := g.object.(type) {
		case *entry:
			out = append(out, o.PlaceHolder)
		case *look.Select:
			out = append(out, o.Options...)
		case *look.Check:
			out = append(out, o.Text)
		}
	}
	return out
}

// No form has a word of the other convention.
func TestFormsSpeakOneConvention(t *testing.T) {
	for _, c := range conventions {
		var all []string
		for _, kind := range diagram.Kinds() {
			doc := put(t, diagram.Part{ID: "x", Kind: kind, System: wye, Transformer: diagram.TransformerData{Primary: wye}})
			all = append(all, said(t, doc, func(e Editor) target[part] { return partTarget(e, []diagram.ID{"x"}, c) }, partRows(kind, c, fixed(doc)))...)
		}
		doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load},
			diagram.Feeder{ID: "f", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Switch: diagram.SwitchData{Kind: diagram.Breaker}},
			diagram.Protector{ID: "p", Bus: "a", Plan: diagram.FirstPlan, System: wye})
		all = slices.Concat(all,
			said(t, doc, func(e Editor) target[feeder] { return feederTarget(e, []diagram.ID{"f"}, c) }, feederRows(c)),
			said(t, doc, func(e Editor) target[protector] { return protectorTarget(e, []diagram.ID{"p"}, c) }, protectorRows(c)),
			said(t, doc, func(e Editor) target[surge] { return surgeTarget(e, 0, c) }, surgeRows(c, fixed(doc))),
			said(t, doc, func(e Editor) target[diagram.Info] { return infoTarget(e, c) }, slices.Concat(infoRows(c), codesRows(c, fixed(doc)))))
		if len(all) < 500 {
			t.Errorf("%v: only %d texts were looked at", c, len(all))
		}
		for _, text := range slices.Compact(slices.Sorted(slices.Values(all))) {
			if word := foreign[c].FindString(text); word != "" {
				t.Errorf("%v: %q in %q", c, word, text)
			}
		}
	}
}
