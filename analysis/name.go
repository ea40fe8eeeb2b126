package analysis

import (
	"clampline/diagram"
)

func nameOr(name string, id diagram.ID) string {
	if name == "" {
		return string(id)
	}
	return name
}

func nameOf(part *diagram.Part) string { return nameOr(part.Name, part.ID) }
