package edit

import (
	"strconv"
	"strings"

	"clampline/diagram"
)

// names holds the names of parts that are taken, and for each stem such as
// "Panel" the highest number that follows it.
type names struct {
	taken   map[string]bool
	highest map[string]int
}

func namesOf(doc *diagram.Document) names {
	n := names{map[string]bool{}, map[string]int{}}
	for part := range doc.Parts() {
		n.add(part.Name)
	}
	return n
}

// namesOfProtectors holds those of a plan.
func namesOfProtectors(doc *diagram.Document, plan diagram.ID) names {
	n := names{map[string]bool{}, map[string]int{}}
	for protector := range doc.ProtectorsOf(plan) {
		n.add(protector.Name)
	}
	return n
}

func (n names) add(name string) {
	n.taken[name] = true
	if stem, number := splitName(name); number > n.highest[stem] {
		n.highest[stem] = number
	}
}

// fresh returns the name, or where it is taken the next one of its kind, and
// takes it.
func (n names) fresh(name string) string {
	if name != "" && n.taken[name] {
		stem, _ := splitName(name)
		name = joined(stem, max(n.highest[stem], 1)+1)
	}
	n.add(name)
	return name
}

// next returns the first name of a stem with the next number, and takes it.
func (n names) next(stem string) string {
	name := joined(stem, n.highest[stem]+1)
	n.add(name)
	return name
}

// joined writes a name: "Panel 3", or "SPD-3" where the stem keeps its hyphen.
func joined(stem string, number int) string {
	if !strings.HasSuffix(stem, "-") {
		stem += " "
	}
	return stem + strconv.Itoa(number)
}

// splitName returns the stem and the number of a name such as "Panel 3" or
// "SPD-3"; a name without a number is all stem. A hyphen stays with the stem.
func splitName(name string) (string, int) {
	at := strings.LastIndexAny(name, " -")
	if at < 0 {
		return name, 0
	}
	number, err := strconv.Atoi(name[at+1:])
	if err != nil || number < 1 || number > maxNameNumber {
		return name, 0
	}
	if name[at] == '-' {
		at++
	}
	return name[:at], number
}

// maxNameNumber bounds what counts as a number of a series; beyond it stand
// numbers of rooms and the like.
const maxNameNumber = 999_999
