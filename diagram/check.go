package diagram

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// maxText bounds a text, in bytes.
const maxText = 20_000

// checkFields reports what the fields of a record may not be.
func checkFields[R any](c *checker, id ID, fields []Field[R], r *R) {
	for i := range fields {
		switch f := &fields[i]; f.Sort {
		case SortText:
			c.text(id, f.Key, f.text(r))
		case SortImage:
			c.image(id, f.Key, f.text(r))
		case SortDate:
			c.date(id, f.Key, f.text(r))
		case SortWord:
			c.oneOf(id, f.Key, f.text(r), f.Words)
		case SortNumber:
			c.number(id, f.Key, *f.number(r), f.Range)
		case SortCount:
			c.number(id, f.Key, float64(*f.count(r)), f.Range)
		}
	}
}

// number reports a value outside of its range.
func (c *checker) number(id ID, field string, v float64, within Range) {
	if !within.Holds(v) {
		c.add(Problem{ID: id, Field: field, What: fmt.Sprintf("%g is out of range", v), Remedy: within.remedy(), Bounds: within.bounds()})
	}
}

func (c *checker) text(id ID, field, s string) {
	switch {
	case len(s) > maxText:
		c.report(id, field, "the text is too long", fmt.Sprintf("use at most %d bytes", maxText))
	case !utf8.ValidString(s):
		c.report(id, field, "the text is not UTF-8", "type it again")
	}
}

// date reports a text that is neither empty nor a day of the calendar.
func (c *checker) date(id ID, field, day string) {
	if day != "" && !IsDate(day) {
		c.report(id, field, fmt.Sprintf("%.40q is no date", day), "write year-month-day, such as 2026-11-29")
	}
}

// IsDate reports whether a text is a day of the calendar by ISO 8601:
// "2026-11-29".
func IsDate(day string) bool {
	_, err := time.Parse(time.DateOnly, day)
	return err == nil
}

// oneOf reports a word that is neither empty nor in the list.
func (c *checker) oneOf(id ID, field, word string, list []string) {
	if word == "" || slices.Contains(list, word) {
		return
	}
	known := make([]string, len(list))
	for i, w := range list {
		known[i] = fmt.Sprintf("%q", w)
	}
	c.report(id, field, fmt.Sprintf("%.40q is not known", word), "use one of "+strings.Join(known, ", "))
}

func (c *checker) info(i Info) { checkFields(c, "", infoFields, &i) }

func (c *checker) plan(p *Plan) {
	c.identity(p.ID)
	checkFields(c, p.ID, planFields, p)
	if p.Of != "" && !p.Of.Valid() {
		c.report(p.ID, "of", fmt.Sprintf("%.80q is no id", string(p.Of)), "name the plan that was carried out, or none")
	}
}

func (c *checker) part(p *Part) {
	c.identity(p.ID)
	if p.Kind == "" {
		c.report(p.ID, "kind", "the kind is missing", "name what the part is")
	}
	checkFields(c, p.ID, partFields, p)
	if p.Withstand.Kind == ByCategory && p.Withstand.Category == 0 {
		c.report(p.ID, "withstand.category", "the category is missing", "use 1, 2, 3 or 4")
	}
}

func (c *checker) feeder(f *Feeder) {
	c.identity(f.ID)
	checkFields(c, f.ID, feederFields, f)
	c.ends(*f)
}

func (c *checker) ends(f Feeder) {
	c.end(f.ID, "from", f.From)
	c.end(f.ID, "to", f.To)
	if f.From.Part == f.To.Part {
		c.report(f.ID, "to", fmt.Sprintf("both ends are at %s", f.From.Part), "lead it to another part, or remove it")
	}
}

func (c *checker) end(id ID, field string, e End) {
	part, ok := c.doc.Part(e.Part)
	switch {
	case !ok:
		c.report(id, field, fmt.Sprintf("it leads to %.80q, and no part has this id", string(e.Part)), "connect it to a part, or remove it")
	case part.Kind.Valid() && !part.Kind.HasPort(e.Port):
		c.report(id, field, fmt.Sprintf("%s (%s) has no terminal %.40q", e.Part, part.Kind, string(e.Port)), portsOf(part.Kind))
	}
}

func portsOf(k Kind) string {
	ports := k.Ports()
	if len(ports) == 0 {
		return "connect it to another part"
	}
	names := make([]string, len(ports))
	for i, p := range ports {
		names[i] = fmt.Sprintf("%q", string(p))
	}
	return "use " + strings.Join(names, " or ")
}

func (c *checker) protector(p *Protector) {
	c.identity(p.ID)
	checkFields(c, p.ID, protectorFields, p)
	c.place(*p)
}

func (c *checker) place(p Protector) {
	if part, ok := c.doc.Part(p.Bus); !ok {
		c.report(p.ID, "bus", fmt.Sprintf("it is attached to %.80q, and no part has this id", string(p.Bus)), "attach it to a board, junction or load")
	} else if part.Kind.Valid() && !part.Kind.TakesProtector() {
		c.report(p.ID, "bus", fmt.Sprintf("it is attached to %s, a %s", p.Bus, part.Kind), "attach it to a board, junction or load")
	}
	if _, ok := c.doc.Plan(p.Plan); !ok {
		c.report(p.ID, "plan", fmt.Sprintf("it belongs to %.80q, and no plan has this id", string(p.Plan)), "give it the id of a plan")
	}
}

func (c *checker) surge(s *Surge) {
	c.identity(s.ID)
	if s.Path == "" {
		c.report(s.ID, "path", "the path is missing", "name the conductors between which it arrives")
	}
	if s.Wave == "" {
		c.report(s.ID, "wave", "the wave is missing", "name its shape")
	}
	checkFields(c, s.ID, surgeFields, s)
	c.arrival(*s)
}

func (c *checker) arrival(s Surge) {
	if s.Part == "" {
		return
	}
	if part, ok := c.doc.Part(s.Part); !ok {
		c.report(s.ID, "part", fmt.Sprintf("it arrives at %.80q, and no part has this id", string(s.Part)), "name a part with terminals, or none for the supply in use")
	} else if len(part.Kind.Ports()) == 0 {
		c.report(s.ID, "part", fmt.Sprintf("it arrives at %s, a %s", s.Part, part.Kind), "name a part with terminals, or none for the supply in use")
	}
}

func (c *checker) aside(a *Aside) {
	c.identity(a.ID)
	checkFields(c, a.ID, asideFields, a)
	if a.Rule == "" {
		c.report(a.ID, "rule", "the rule is missing", "name the rule that finds it")
	}
	if _, ok := c.doc.Plan(a.Plan); !ok {
		c.report(a.ID, "plan", fmt.Sprintf("it belongs to %.80q, and no plan has this id", string(a.Plan)), "give it the id of a plan")
	}
	if a.About != "" && !c.doc.Has(a.About) {
		c.report(a.ID, "about", fmt.Sprintf("it is about %.80q, and no record has this id", string(a.About)), "name the record, or remove it")
	}
}
