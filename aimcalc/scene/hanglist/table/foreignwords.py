"""Headings of lists that come with a visiting company: what they are called in German, French, Spanish,
Portuguese, Italian, Dutch and the Scandinavian languages.

They are compared without their accents. A word that means two things among these languages, or another in
English, stands with both keys, and the cells under it tell which.
"""

from __future__ import annotations

# As those of `tradewords`: what a column holds, likeliest first, and the headings that say so.
FOREIGN = """
position: posicion, posizione, posicao, positie, posisjon, standort, hangeort, haengeort, hangeposition
position: haengeposition, aufhangung, aufhaengung, stange, zug, zugstange, laststange, traverse, zug no
position: perche, porteuse, pont, accroche, emplacement, barra, vara, americana, trek, trek no, ubicacion
position: ubicazione, upphangning, plassering, placering
number: nummer, numero, lfd no, laufende no, no d ordre, lampe no, gerat no, geraet no, no projecteur, volgno
number: lampa no, numer
at: mass, masse, abstand, distanz, entfernung, abstand mitte, abstand von mitte, mass ab mitte, ab mitte
at: mass von mitte, von mitte, von der mitte, cotes, mesure, mesures, distance axe, distance a l axe, de l axe
at: medida, medidas, distancia, distancia al centro, del centro, al eje, misura, misure, distanza
at: distanza dal centro, dal centro, dall asse, maat, afstand, afstand tot midden, van midden, uit het midden
at: uit midden, vanaf midden, matt, avstand, avstand fran mitten, fran mitten, fra midten, fra midt
at target: mal
side: seite, cote, lado, lato, zijde, kant, sida
height: hohe, hoehe, hauteur, altura, altezza, hoogte, hojd, hoyde, hojde
kind: gerat, geraet, geratetyp, geraetetyp, scheinwerfer, scheinwerfertyp, leuchte, leuchtentyp, lampentyp
kind: appareil, projecteur, type de projecteur, aparato, proyector, reflector, projetor, apparecchio
kind: proiettore, tipo, armatuur, schijnwerper, stralkastare, armatur, lyskaster, armaturtype
kind target: foco
target: ziel, leuchtet auf, einleuchtung, fokus, fokuspunkt, visee, pointage, reglage
target: foco a, enfoque, objetivo, dirigido a, ilumina, puntamento, destinazione, bersaglio, obiettivo, zona
target: doel, gericht op, belicht, riktad mot, rettet mot
target side: richtung, richting, riktning, retning
colour: farbe, farbfilter, filternummer, farbfolie, folie, gelat, gelatine, couleur, filtre, gelatina, filtro
colour: cor, kleur, kleurfilter, farg, fargfilter, farge, farve
channel: kanal, steuerkanal, lichtkanal, canal, canale, kanaal, pult, voie, jeu d orgue
circuit: kreis, stromkreis, dimmerkreis, circuito, ligne, linea, groep, krets, dimmerkrets, gradateur
count: anzahl, stuck, stueck, stk, menge, quantite, cantidad, quantidade, quantita, aantal, antal, antall
note: bemerkung, bemerkungen, anmerkung, anmerkungen, hinweis, remarque, remarques, observation, observations
note: observaciones, observacao, obs, nota, annotazioni, osservazioni, opmerking, opmerkingen, opm, anm
note: anmarkning, merknad, bemaerkning
"""
