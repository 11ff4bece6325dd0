// Package xmlscan reads elements, attributes and text from XML that may be
// hostile, one event at a time, in constant memory, and refuses the rest.
//
// It reads XML 1.0 (fifth edition) with Namespaces in XML 1.0, UTF-8 only, and
// checks what they demand of a document without a document type: matching
// tags, one root, unique attributes, bound prefixes, legal characters. It
// refuses document types, and with them every entity but the five predefined
// ones, so that nothing in a file can grow or fetch anything. Depth, the size
// of a tag, the number of attributes and the size of the file are limited.
// Names may hold any character above ASCII; the tables of the standard for
// those are not checked.
//
// It uses no reflection, which keeps the WebAssembly build small.
package xmlscan
