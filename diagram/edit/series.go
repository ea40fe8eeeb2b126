package edit

import (
	"strconv"
	"strings"

	"clampline/diagram"
)

// series gives out new ids for many records of one change. The document finds
// the first number of each stem; counting on from it spares it to look again
// after each record.
type series struct {
	tx   *diagram.Tx
	last map[diagram.Kind]diagram.ID // given out last; feeders and protectors under words of their own
}

func newSeries(tx *diagram.Tx) series { return series{tx, map[diagram.Kind]diagram.ID{}} }

func (s series) part(kind diagram.Kind) diagram.ID {
	return s.id(kind, func() diagram.ID { return s.tx.NewPartID(kind) })
}

func (s series) feeder() diagram.ID { return s.id("feeder", s.tx.NewFeederID) }

func (s series) protector() diagram.ID { return s.id("protector", s.tx.NewProtectorID) }

func (s series) id(kind diagram.Kind, first func() diagram.ID) diagram.ID {
	id, begun := s.last[kind]
	if !begun {
		id = first()
	}
	for s.tx.Document().Has(id) {
		id = following(id)
	}
	s.last[kind] = id
	return id
}

// following returns the id with the next number.
func following(id diagram.ID) diagram.ID {
	at := strings.LastIndexByte(string(id), '-') + 1
	number, _ := strconv.Atoi(string(id)[at:])
	return id[:at] + diagram.ID(strconv.Itoa(number+1))
}
