package survey

import (
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// newProtector is what stands for the id of a protector that is not drawn yet; a
// blank id does as well.
const newProtector = "new"

// found is a protector that a row describes without its id.
type found struct {
	row    int // from 0
	board  part
	record protector      // what could be read
	cells  []int          // slots in which something stands
	wrong  map[int]unread // by slot, what cannot be taken
	words  []string       // what could be read, but for the name
	marks  []string       // what is unusual of it
	about  diagram.ID     // the protector on the drawing that it was paired with, or none
}

// unnumbered reads what a row without the id of a protector says of one. Those
// with a name come first; the others are kept until every row has been looked at.
func (x *reading) unnumbered(n int, board part) {
	f := x.describe(n, board)
	switch {
	case len(f.cells) > 0 && !identified(f.record):
		x.tellStray(f)
	case len(f.cells) > 0 && f.record.Name == "":
		x.nameless = append(x.nameless, f)
	case len(f.cells) > 0:
		x.take(f)
	case x.id(n, keyProtector) != "":
		x.tell(n, x.place(keyProtector), unread{"the row is of a new protector and says nothing of it", "write its name or what its nameplate says, or take the row out"})
	}
}

// describe reads the cells of a row as those of a protector of which nothing is
// known but where it is, and what the panel carries.
func (x *reading) describe(n int, board part) found {
	out := found{row: n, board: board, record: protector{Plan: x.plan, Bus: board.ID}, wrong: map[int]unread{}}
	if node := x.topology.Node(board); node != nil && node.System.Known() {
		out.record.System = node.System
	}
	columns := protectorColumns()
	for i, s := range x.slots {
		cell := strings.TrimSpace(x.cell(n, i))
		if s.role != ofProtector || cell == "" || isDash(cell) || x.saysNone(n, i) {
			continue
		}
		out.cells = append(out.cells, i)
		p, _, err := propose(columns, s.at, out.record, cell, x.habits)
		if err != nil {
			out.wrong[i] = reason(err)
			continue
		}
		if s.key == keyRated && p.next.Rating == "" {
			p.next.Rating = diagram.VPR // which is what the record means, and here somebody says it
		}
		if _, err := x.trial.Snapshot().Edit(addProtector(p.next)); err != nil {
			out.wrong[i] = x.refusal(n, i, err)
			continue
		}
		out.record = p.next
		if p.mark != "" {
			out.marks = append(out.marks, lowerFirst(s.field(x.convention))+" "+lowerFirst(strings.TrimPrefix(p.mark, "Unusual: ")))
		}
		if word := statedBy(s, columns[s.at], p.next, x.convention); word != "" {
			out.words = append(out.words, word)
		}
	}
	x.complete(&out)
	return out
}

// saysNone reports whether a cell says in words that there is no protector: people
// write that where a name is asked.
func (x *reading) saysNone(n, slot int) bool {
	if x.slots[slot].key != keyProtectorName {
		return false
	}
	switch folded(unescaped(oneLine(x.cell(n, slot)))) {
	case "none", "no", "n/a", "na", "nospd", "noprotector":
		return true
	}
	return false
}

// statedBy says what a cell tells of a protector, or nothing of its name, which is
// said elsewhere.
func statedBy(s slot, c column[protector], record protector, convention unit.Convention) string {
	text := oneLine(c.read(record, convention))
	switch {
	case text == "" || s.key == keyProtectorName:
		return ""
	case s.key == keyType:
		return text
	}
	return lowerFirst(s.field(convention)) + " " + text
}

// complete adds what follows from what the row says: a mode with a continuous
// voltage is there, and a class of IEC 61643-11 is rated by Up, as is what is not
// known otherwise in the words of IEC.
func (x *reading) complete(f *found) {
	p := &f.record
	for _, mode := range diagram.Modes() {
		if p.Modes[mode].MCOV > 0 && strings.TrimSpace(x.cell(f.row, x.place(keyLevel(mode)))) == "" {
			p.Modes[mode].Connected = true
		}
	}
	isClass := p.Type == diagram.ClassI || p.Type == diagram.ClassII || p.Type == diagram.ClassIII
	if x.ratedByUp(f.row) && (isClass || p.Type == "" && x.convention == unit.IEC) {
		p.Rating = diagram.Up
	}
}

// ratedByUp reports whether a row leaves open which voltage is rated.
func (x *reading) ratedByUp(n int) bool { return strings.TrimSpace(x.cell(n, x.place(keyRated))) == "" }

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

// tellStray tells what stands in the columns of protectors in a row that is about
// none.
func (x *reading) tellStray(f found) {
	for _, slot := range f.cells {
		wrong, ok := f.wrong[slot]
		if !ok {
			wrong = unread{quoted(x.cell(f.row, slot)) + " stands in a row that is about no protector",
				"write it in the row of the protector; for a new one write its name, type or a rating beside it"}
		}
		x.tell(f.row, slot, wrong)
	}
}

// take finds the protector of a row on the drawing, or adds it to the plan.
func (x *reading) take(f found) {
	if record, ok := x.drawn(f); ok {
		x.taken.enter(f.board.ID, record.ID, record.Name, f.row)
		for _, slot := range x.ofProtector() {
			if isName := x.slots[slot].key == keyProtectorName; !isName || f.says(slot) {
				state(x, x.protectors, protectorColumns(), record, record.ID, f.board.ID, f.row, slot)
			}
		}
		return
	}
	if row, ok := x.taken.named(f.board.ID, f.record.Name); ok {
		x.tell(f.row, x.place(keyProtectorName), unread{x.nameOf(f.board.ID) + " has " + quoted(f.record.Name) + " already, in row " + numbers([]int{row + 1}),
			"give this one another name, or take the row out"})
		return
	}
	x.add(f)
}

// says reports whether something stands in a slot of the row.
func (f found) says(slot int) bool { return slices.Contains(f.cells, slot) }

// ofProtector returns the slots of a protector's record.
func (x *reading) ofProtector() []int {
	var out []int
	for i, s := range x.slots {
		if s.role == ofProtector {
			out = append(out, i)
		}
	}
	return out
}

// add proposes to add a protector.
func (x *reading) add(f found) {
	for _, slot := range f.cells {
		if wrong, ok := f.wrong[slot]; ok {
			x.tell(f.row, slot, wrong)
		}
	}
	record := f.record
	if record.Name == "" {
		record.Name = x.trial.NewProtectorName(x.plan)
	}
	x.taken.enter(f.board.ID, "", record.Name, f.row)
	err := x.propose(f.row, Change{
		Board: f.board.ID, Name: record.Name + " on " + x.nameOf(f.board.ID), To: said(f.words), Note: x.addedNote(f),
		column: x.column[f.cells[0]], alter: addProtector(record),
	})
	if err != nil {
		x.tell(f.row, f.cells[0], x.refusal(f.row, f.cells[0], err))
	}
}

func said(words []string) string {
	if len(words) == 0 {
		return "nothing but the name is stated"
	}
	return strings.Join(words, ", ")
}

// addedNote says what of a new protector does not stand in its row.
func (x *reading) addedNote(f found) string {
	var out []string
	for _, mark := range f.marks {
		out = append(out, "Unusual: "+mark)
	}
	if f.record.System.Known() {
		out = append(out, "It is taken to be made for what the panel carries, "+systemText(f.record.System)+".")
	}
	if x.ratedByUp(f.row) && f.record.Rating == diagram.Up {
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

// notePlan says into which plan new protectors go, where the table was made for
// one of another name.
func (x *reading) notePlan() {
	for _, cells := range x.rows {
		text := strings.TrimSpace(strings.Join(cells, " "))
		if strings.HasPrefix(text, comment+" "+surveyOf) && !strings.HasSuffix(text, inPlan+x.doc.NameOf(x.plan)) && x.adds() {
			x.review.Notes = append(x.review.Notes, "The table was made for another plan. Its new protectors go into the plan “"+oneLine(x.doc.NameOf(x.plan))+"”.")
			return
		}
	}
}

func (x *reading) adds() bool {
	for _, c := range x.review.Changes {
		if c.Record == "" {
			return true
		}
	}
	return false
}
