"""What bars, bridges, towers and stands are called in other languages, for lists of a company whose words are
not the house's: "Batten 1" of Zug 1, "Perche 2" of Bar 2. Each stands as a whole word; no sides are among
them, since whose left a word means is asked elsewhere."""

from __future__ import annotations

# Without accents, as `fold_case` leaves them; the first word stands for all of its line.
_SORTS = """
lx zug zuge zugstange laststange stange perche perches porteuse porteuses trek trekken ra raer sztankiet
lx sztankiety tah tahy tiro tiri vara varas varal barra barras bara barre americana americanas tanko tangot
lx trekk træk traek dragning stang rejtrek hijs takkel bar bars batten battens pipe pipes elx
truss traverse traversen pont traliccio trusses kratownica tralicc triangel tross ristikko
bridge brucke bruecke passerelle puente ponte pasarela bro brug most silta lavka bridges
tower turm turme tour tours torre torri torn tarn toren wieza wieze vez torni towers
boom booms
gallery galerie galerien galleria galeria galleri galerij gallerier parvi ochoz galeries galleries
stand stands stativ stative pied pieds statyw statywy stojan statief jalusta treppiede tripode tripod
stand tripods tripie treppiedi
floor boden sol suelo piso pavimento chao golv gulv vloer podloga podlaha lattia
back rear
mid middle
"""
TONGUES = {
    word: line.split()[0] for line in _SORTS.strip().splitlines() for word in line.split()[1:]
}
# What is taken for one another where that leaves one position: any bar or truss, any tower or boom.
LOOSELY = {word: {"truss": "lx", "boom": "tower"}.get(sort, sort) for word, sort in TONGUES.items()}
LOOSELY |= {"truss": "lx", "boom": "tower"}
