package nec

import (
	"strings"
	"unicode"

	"branchwork/codes"
)

func circuitDirectory() codes.Rule {
	return codes.Rule{
		ID:    "circuit-directory",
		Title: "a circuit's name tells its purpose to whoever opens the panel",
		Why: "In an emergency a stranger must find the right breaker. Names like plug 3, or the name of whoever uses the room " +
			"today, tell nothing next year.",
		Clauses:  always("408.4(A)"),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Needs:    []codes.Fact{codes.CircuitName, codes.Existing},
		Remedies: []codes.Remedy{codes.RenameCircuit},
		Check:    checkCircuitDirectory,
	}
}

// empty lists words that name no purpose.
const empty = " plug plugs outlet outlets receptacle receptacles socket circuit ckt breaker misc miscellaneous other stuff general unknown new old room "

// checkCircuitDirectory asks of circuits that exist: their names stand in the
// file as they stand in the panel. A number alone refers to the panel's spaces
// and is not judged; a name that says whose it is depends on who uses the room.
func checkCircuitDirectory(f *codes.Facts) codes.Verdict {
	if f.No(codes.Existing) {
		return codes.NotConcerned()
	}
	name := codes.Of[string](f, codes.CircuitName)
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '’' })
	says, vague := len(words) == 0, 0
	for _, w := range words {
		if strings.ContainsAny(w, "'’") {
			return codes.Whether(false).Saying("name what it feeds and where: flower room, row 2 lights", "its name %q depends on who uses the room", name)
		}
		if strings.Contains(empty, " "+w+" ") {
			vague++
		}
	}
	says = says || vague < len(words)
	return codes.Whether(says).Saying("name what it feeds and where: flower room, row 2 lights", "its name %q tells no purpose", name)
}
