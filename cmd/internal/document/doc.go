// Package document turns results into one plain value per answer: the contract
// that the JSON output prints to the key and that every renderer reads.
//
// Nothing is rounded here and nothing is worded for one format: rounding, unit
// system and layout are the renderer's, figures are not. Two rules of presence
// hold throughout:
//
//   - a key is absent where it has no meaning (the receptacle of a wired
//     circuit, the feeder of a service panel);
//   - a key is null where it has a meaning and the value is not known (the
//     conductor size of an old circuit that nobody has read yet).
//
// Keys may be added to a schema, never changed or removed; a change of meaning
// takes a new number in the schema's name.
package document
