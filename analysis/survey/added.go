package survey

import (
	"fmt"
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// newProtector is what may stand for the id of a protector that is not drawn yet.
const newProtector = "new"

// found is a protector that a row describes without its id.
type found struct {
	entry
	board  part
	record subject        // what could be read
	says   []int          // columns in which something stands
	wrong  map[int]unread // by column, what cannot be taken
	words  []string       // what could be read, but for the name
	marks  []string       // what is unusual of it
	paired diagram.ID     // the protector on the drawing that it is about, or none
}

// unnumbered reads what a row without the id of a protector says of one. Those
// with a name come first; the others are kept until every row has been looked at.
func (x *reading) unnumbered(e entry) {
	board, wrong := x.subjectOf(e, boards, keyBoard)
	if wrong != (unread{}) {
		x.tell(e, x.place(protectors, keyBoard), wrong)
		return
	}
	f := x.describe(e, board.part)
	id := x.place(protectors, keyID)
	if len(f.says) > 0 || strings.TrimSpace(e.cells[id]) != "" {
		x.counted[e.row] = true
		x.compareTold(e, f.record)
	}
	switch {
	case len(f.says) > 0 && !identified(f.record.protector):
		x.tellUnclear(f)
	case len(f.says) > 0 && f.record.protector.Name == "":
		x.nameless = append(x.nameless, f)
	case len(f.says) > 0:
		x.take(f)
	case strings.TrimSpace(e.cells[id]) != "":
		x.tell(e, id, unread{"the row is of a new protector and says nothing of it", "write its name or what its nameplate says, or take the row out"})
	}
}

// describe reads the cells of a row as those of a protector of which nothing is
// known but where it is, and what the panel carries.
func (x *reading) describe(e entry, board part) found {
	out := found{entry: e, board: board, wrong: map[int]unread{}}
	out.record.protector = protector{Plan: x.plan, Bus: board.ID}
	if system := x.carried(board); system.Known() {
		out.record.protector.System = system
	}
	for i, c := range x.forms[protectors].columns {
		cell := strings.TrimSpace(e.cells[i])
		if c.role != asks || cell == "" || isDash(cell) || c.key == keyName && saysNone(cell) {
			continue
		}
		out.says = append(out.says, i)
		if wrong := x.learn(&out, i, c, cell); wrong != (unread{}) {
			out.wrong[i] = wrong
		}
	}
	x.complete(&out)
	return out
}

// learn takes what a cell says into the record, or returns why it cannot.
func (x *reading) learn(f *found, i int, c column, cell string) unread {
	p, _, err := propose(x.forms[protectors].columns, i, f.record, cell, x.habits)
	if err != nil {
		return reason(err)
	}
	if rating := &p.next.protector.Rating; c.key == keyRated && *rating == "" {
		*rating = diagram.VPR // which is what the record means, and here somebody says it
	}
	if _, err := x.trial.Snapshot().Edit(addProtector(p.next.protector)); err != nil {
		return x.refusal(f.entry, i, err)
	}
	f.record = p.next
	field, text := lowerFirst(c.name(x.convention)), oneLine(c.read(&f.record, x.convention))
	if p.mark != "" {
		f.marks = append(f.marks, "Unusual: "+field+" "+p.mark+".")
	}
	switch {
	case text == "" || c.key == keyName:
	case c.key == keyType:
		f.words = append(f.words, text)
	default:
		f.words = append(f.words, field+" "+text)
	}
	return unread{}
}

// saysNone reports whether a cell says in words that there is no protector: people
// write that where a name is asked.
func saysNone(cell string) bool {
	return slices.Contains([]string{"none", "no", "n/a", "na", "nospd", "noprotector"}, folded(unescaped(oneLine(cell))))
}

// complete adds what follows from what the row says: a mode with a continuous
// voltage is there, and a class of IEC 61643-11 is rated by Up, as is what is not
// known otherwise in the words of IEC.
func (x *reading) complete(f *found) {
	p := &f.record.protector
	for _, mode := range diagram.Modes() {
		if p.Modes[mode].MCOV > 0 && !x.saysOf(*f, keyLevel(mode)) {
			p.Modes[mode].Connected = true
		}
	}
	isClass := p.Type == diagram.ClassI || p.Type == diagram.ClassII || p.Type == diagram.ClassIII
	if !x.saysOf(*f, keyRated) && (isClass || p.Type == "" && x.convention == unit.IEC) {
		p.Rating = diagram.Up
	}
}

// saysOf reports whether something stands in the column of a key, a dash among it.
func (x *reading) saysOf(f found, key string) bool {
	return strings.TrimSpace(f.cells[x.place(protectors, key)]) != ""
}

// identified reports whether enough is known of a protector to draw one: its
// name, or something that its nameplate says.
func identified(p protector) bool {
	for _, r := range p.Modes {
		if r.Level > 0 || r.MCOV > 0 {
			return true
		}
	}
	return p.Name != "" || p.Type != "" || p.In > 0 || p.SCCR > 0
}

// tellUnclear tells what stands in a row that does not say which protector it is of.
func (x *reading) tellUnclear(f found) {
	for _, i := range f.says {
		wrong, ok := f.wrong[i]
		if !ok {
			wrong = unread{quoted(f.cells[i]) + " stands in a row that is about no protector",
				"write it in the row of the protector; for a new one write its name, type or a rating beside it"}
		}
		x.tell(f.entry, i, wrong)
	}
}

// take finds the protector of a row on the drawing, or adds it to the plan.
func (x *reading) take(f found) {
	name := x.place(protectors, keyName)
	if record, ok := x.drawn(f); ok {
		x.taken.enter(f.board.ID, record.ID, record.Name, f.row)
		for i, c := range x.forms[protectors].columns {
			if c.role == asks && (i != name || slices.Contains(f.says, i)) {
				x.state(f.entry, i, subject{protector: record})
			}
		}
		return
	}
	if row, ok := x.taken.names[nameOn(f.board.ID, f.record.protector.Name)]; ok {
		x.tell(f.entry, name, unread{x.nameOf(f.board.ID) + " has " + quoted(f.record.protector.Name) + fmt.Sprintf(" already, in row %d", row+1),
			"give this one another name, or take the row out"})
		return
	}
	x.add(f)
}

// add proposes to add a protector.
func (x *reading) add(f found) {
	for _, i := range f.says {
		if wrong, ok := f.wrong[i]; ok {
			x.tell(f.entry, i, wrong)
		}
	}
	record := f.record.protector
	if record.Name == "" {
		record.Name = x.trial.NewProtectorName(x.plan)
	}
	x.taken.enter(f.board.ID, "", record.Name, f.row)
	says := strings.Join(f.words, ", ")
	if says == "" {
		says = "nothing but the name is stated"
	}
	err := x.propose(f.entry, f.says[0], Change{Name: record.Name + " on " + x.nameOf(f.board.ID), To: says, Note: x.addedNote(f), alter: addProtector(record)})
	if err != nil {
		x.tell(f.entry, f.says[0], x.refusal(f.entry, f.says[0], err))
	}
}

// addedNote says what of a new protector does not stand in its row.
func (x *reading) addedNote(f found) string {
	out := f.marks
	if system := f.record.protector.System; system.Known() {
		out = append(out, "It is taken to be made for what the panel carries, "+systemText(system)+".")
	}
	if f.record.protector.Rating == diagram.Up && !x.saysOf(f, keyRated) {
		out = append(out, "Its voltages are taken as Up.")
	}
	return strings.Join(out, " ")
}

// addProtector returns what adds a protector under an id of its own.
func addProtector(record protector) func(*diagram.Tx) error {
	return func(tx *diagram.Tx) error {
		if _, ok := tx.Part(record.Bus); !ok {
			return gone(record.Bus)
		}
		added := record
		added.ID = tx.NewProtectorID()
		tx.SetProtector(added)
		return nil
	}
}

// noteBuilding tells where the file is of another building, whose ids mean other
// panels here.
func (x *reading) noteBuilding() {
	for _, cells := range x.rows {
		of, found := strings.CutPrefix(strings.TrimSpace(strings.Join(cells, " ")), comment+" "+surveyOf)
		if title := x.doc.Info().Title; found && title != "" && !strings.HasPrefix(of, title) {
			of, _, _ = strings.Cut(of, inPlan)
			x.review.Foreign = of
			x.review.Notes = append(x.review.Notes, "The table is of another building, “"+of+"”, and the sheet of “"+title+"”: its ids mean other panels here. Take nothing of it unless you are sure.")
			return
		}
	}
}

// notePlan says into which plan new protectors go, where the table was made for
// one of another name.
func (x *reading) notePlan() {
	adds := slices.ContainsFunc(x.review.Changes, func(c Change) bool { return c.Record == "" })
	for _, cells := range x.rows {
		text := strings.TrimSpace(strings.Join(cells, " "))
		if adds && strings.HasPrefix(text, comment+" "+surveyOf) && !strings.HasSuffix(text, inPlan+x.doc.NameOf(x.plan)) {
			x.review.Notes = append(x.review.Notes, "The table was made for another plan. Its new protectors go into the plan “"+x.nameOf(x.plan)+"”.")
			return
		}
	}
}
