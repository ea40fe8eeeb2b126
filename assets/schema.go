package assets

import _ "embed"

//go:embed clampline.schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of the current version of the
// sheet file, which is also its description for people.
func Schema() []byte { return schema }
