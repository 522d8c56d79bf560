package svg

import _ "embed"

//go:embed style.css
var style string

// Style returns the rules that drawings take their looks from, for the style
// sheet of the page that they stand in. It reads two properties of the page:
// --paper, the ground, and --sans, the type.
func Style() string { return style }
