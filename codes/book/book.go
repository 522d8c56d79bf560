// Package book is the shelf of code profiles: by name, for commands and tests.
// Packages that decide or judge take a *codes.Profile as an argument and never
// look one up here.
package book

import (
	"branchwork/codes"
	"branchwork/codes/cec"
	"branchwork/codes/nec"
	"branchwork/codes/practice"
)

// Default is the profile taken where none is named.
const Default = "nec-2023"

// All returns every profile, family by family, oldest edition first.
func All() []*codes.Profile {
	var all []*codes.Profile
	all = append(all, nec.Profiles()...)
	all = append(all, cec.Profiles()...)
	for _, p := range all {
		p.Rules = append(p.Rules, practice.Rules()...)
		for _, says := range practice.NotCovered(p.Rules) {
			p.NotCovered = append(p.NotCovered, p.Say(says))
		}
	}
	return all
}

// Profile returns the profile of that name; an empty name is the default.
func Profile(name string) (*codes.Profile, bool) {
	if name == "" {
		name = Default
	}
	for _, p := range All() {
		if p.Name == name {
			return p, true
		}
	}
	return nil, false
}

// Names returns the names of all profiles in the order of All.
func Names() []string {
	var names []string
	for _, p := range All() {
		names = append(names, p.Name)
	}
	return names
}
