// Package nec carries editions of the National Electrical Code (NFPA 70) as
// profiles: tables as data in the TOML files beside the code, each row with how
// it was checked, and the few figures and clause numbers that stand outside
// tables. The rules that judge a plan by them are listed in rules.go, one file each.
//
// Editions share one base and differ only where the code does (editions.go).
// The text of the code is not reproduced; rules are in our own words, and the
// values come from the public reproductions named beside each row.
//
// What an edition does not carry is said in Profile.NotCovered; clause numbers
// of 2026 that were not seen in a source are cited as from memory.
package nec
