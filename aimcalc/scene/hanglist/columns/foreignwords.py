"""Headings of lists that come with a visiting company: what they are called in German, French, Spanish,
Portuguese, Italian, Catalan, Dutch, the Scandinavian languages, Finnish, Polish and Czech.

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
number: nummer, numero, lfd no, laufende no, no d ordre
number: lampe no, gerat no, geraet no, no projecteur, volgno
number: lampa no, numer
at: mass, masse, abstand, distanz, entfernung, abstand mitte, abstand von mitte, mass ab mitte, ab mitte
at: mass von mitte, von mitte, von der mitte, cotes
at: mesure, mesures, cote axe, cotes axe, distance axe, distance a l axe, de l axe
at: medida, medidas, distancia, distancia al centro, del centro, al eje, misura, misure, distanza
at: distanza dal centro, dal centro, dall asse, maat
at: afstand, afstand tot midden, van midden, uit het midden
at: uit midden, vanaf midden, matt, avstand, avstand fran mitten, fran mitten, fra midten, fra midt
at target: mal
at side: cote
side: seite, lado, lato, zijde, kant, sida, puoli, strona, costat
height: hohe, hoehe, hauteur, altura, altezza, hoogte, hojd, hoyde, hojde
kind: gerat, geraet, geratetyp, geraetetyp, scheinwerfer, scheinwerfertyp, leuchte, leuchtentyp, lampentyp
kind: appareil, projecteur, type de projecteur, aparato, proyector, reflector, projetor, apparecchio
kind: proiettore, tipo, armatuur, schijnwerper, stralkastare, armatur, lyskaster, armaturtype
kind target: foco
target: ziel, leuchtet auf, einleuchtung, fokus, fokuspunkt, visee, pointage, reglage
target: foco a, enfoque, objetivo, dirigido a, ilumina, puntamento, destinazione, bersaglio, obiettivo, zona
target: doel, vak, speelvak, gericht op, belicht, riktad mot, rettet mot
target side: richtung, richting, riktning, retning, direccion, direzione, direcao
colour: farbe, farbfilter, filternummer, farbfolie, folie
colour: gelat, gelatine, couleur, filtre, gelatina, filtro
colour: cor, kleur, kleurfilter, farg, fargfilter, farge, farve
channel: kanal, steuerkanal, lichtkanal, stellkreis, canal, canale, kanaal, pult, voie, jeu d orgue
circuit: kreis, stromkreis, dimmerkreis, circuito, ligne, linea, groep, krets, dimmerkrets, gradateur
count: anzahl, stuck, stueck, stk, menge, quantite, cantidad, quantidade, quantita, aantal, antal, antall
note: bemerkung, bemerkungen, anmerkung, anmerkungen
note: hinweis, remarque, remarques, observation, observations
note: observaciones, observacao, obs, nota, annotazioni, osservazioni, opmerking, opmerkingen, opm, anm
note: anmarkning, merknad, bemaerkning
position: hangepunkt stange, wo, ort, prospektzug, beleuchtungsposition, beleuchterbrucke, porteuse no, lieu
position: equipe, varal, electrica, lugar, sitio, local, localizacao, ponto de suspensao, supporto, tiro
position: plaats, ror, ophanging, ophangpositie, ophangpunt, bar no, plats, ra, dragning, traek, trekk, rigg
position: hauszug, zug haus, position haus, unser zug, unsere position, gastspielzug, position salle
position: perche salle, notre perche, posicion sala, vara sala, barra sala, nuestra vara, posizione teatro
position: barra teatro, trek theater, trek zaal, positie theater, onze trek, gastspiel zug
position: pozycja, miejsce, sztankiet, pozice, tah, umisteni, misto, tanko, paikka, ripustus
number: rif, riferimento, kennung, kennziffer
number: numm, stuck no, unidad, unidade, unita, apparecchio no, num, cislo, numero laitteen, enhet no
number: scheinwerfer no, aparato no, proyector no, proiettore no, armatuur no
at: hangepunkt, abstand zur mitte, abstand bis mitte, abstand ab mitte
at: ecart, eloignement, posizione x, quota
at: afstand midden, afstand vanaf midden, afstand uit midden
at: afstand van midden, afstand fra midt, mittavstand
at: avstand fra midten, avstand fra senter, odleglosc, odleglosc od osi
at: odl, odl od osi, odl od srodka, vzd, vzd od osy, avst, avst fran mitten, etais, dist al eje
at: dist do eixo, dist dal centro, dist dal asse, dist al centro, distancia ao centro, distancia do eixo
at: od osi, od srodka, vzdalenost
at: vzdalenost od osy, vzdalenost od stredu, od osy, od stredu, mida, distancia al eje, a l eix
at: etaisyys, etaisyys keskilinjasta, keskilinjasta
height: wysokosc, vyska, alcada, korkeus
kind: strahler, lampe, leuchtmitteltyp, source, luminaria
kind: artefacto, equipo, equipamento, aparelho, refletor
kind: projetor tipo, tipo de aparato, tipo de proyector
kind: tipo di proiettore, corpo illuminante, apparecchiatura
kind: lamptype, lampsoort, soort, soort lamp, lampe type
kind: oprawa, rodzaj, urzadzenie, typ reflektora, svitidlo
kind: pristroj, typ svitidla, aparell, heitin, valaisin, tyyppi
target: zielpunkt, ausrichtung, ausleuchtung, einstellung, richten auf
target: eclaire, eclaire quoi, but, cible, vers
target: direction faisceau, apunta a, apuntar a, enfocado a
target: objectivo, alvo, afinacao, aponta para, punta su
target: puntato su, mira, richten op, focus op, stellen op, riktas mot, rettes mod, rettes mot, cel
target: swieci na, ustawienie na, cil, sviti na, zamereni, objectiu, enfocament, apunta, kohde, suuntaus
colour: folien no, filterfolie, colore, color no, kolor, filtr, barva, vari, kalvo, suodin
channel: kanal no, pult kanal, stellwerkkanal, canal no
channel: canal de mesa, canale no, kanaal no, kanava, memoria canal
circuit: kreis no, stromkreis no, dimmer no kreis, steckdose, anschluss, anschlussdose, prise, circuit no
circuit: circuito no, dimer, presa, ritorno, ritorno no, tomada, kring, kring no, dimmerkring, stopcontact
circuit: aansluiting, kreds, dimmerkreds, uttag, uttak, krets no, obwod, obwod no, obvod, gniazdo, regulator
circuit: sciemniacz, okruh, okruh no, stmivac, piiri, himmennin, ryhma, grupp no, gruppe no, grupa no
circuit: ljusgrupp, grupp nummer, dimmergrupp, dimmergruppe, groep no, multicore no, kabel no, kabelnummer
circuit system: grupp, gruppe, grupa, skupina
circuit: lysdaemper, daemper, lysdemper, dimmerkanal, obw
count: nb, anz, cant, qta, q ta, qtd, qtde, szt, lkm
count: anzahl stuck, nombre, nbre, qte, ilosc, sztuk, pocet, kusu, ks, maara, kpl, quantitat
kind target: was, quoi, que, cosa, che cosa, wat, vad, hvad, hva, co, o que
target: wohin, worauf, wohin gerichtet, gerichtet auf, gerichtet, vers ou, sur quoi, vise, eclairer
target: hacia donde, adonde, a donde, punto, su, su cosa, verso dove, dove punta, para onde, waarheen
target: waarop
target: richt op, licht op, belichten, vart, hvorhen, kam, na co, dokad, mihin, apunta hacia, punta verso
position: ou, dove, donde, waar, var, hvor, gdzie, kde, onde, missa, en que vara, su quale americana
position: welcher zug
position: welke trek, quelle perche
at: ort auf der stange, ort auf stange, position auf der stange, position auf stange, platz auf der stange
at: stelle auf der stange, lage auf der stange, ort am zug, position am zug, abstand auf der stange
at: medida ao centro, medida al centro, medida do centro, medida del centro
at position: plek, lage, laege, sted, stelle, plass, sijainti
at: a eje, a centro, desde centro, desde el centro, desde el eje, da centro, da asse, zur mitte, mitte
at: axe, uit hart, uit het hart, tot midden, naar midden, midden, uit de as, till mitten, til midten
at: till centrum
at: plek op trek, plek op de trek, plaats op trek, plaats op de trek, afst, abst, plads
number: volgnr, n ord, ordine, orden, pozice no
number: lfd, nro, volgnummer, lobenr, lobenummer, lopnr, lopnummer, lopenr, lopenummer, repere, ord no
number: no dordre
number: lp, l p, n º
kind: modell, modele, modello, modelo, bezeichnung, designation, optique, optik
target: spielflache, spielbereich, zielbereich, zielort, leuchtet, leuchtet wohin, wohin leuchtet
target: leuchtziel
target: lichtziel, leuchtpunkt, lichtpunkt, leuchtrichtung, lichtrichtung, strahlt auf, fokus auf
target: position auf buhne
target: beleuchtet, was wird beleuchtet, beleuchteter bereich, richtet sich auf, zielflache
target: pointe sur, regle sur, dirige vers, zone eclairee, zone de jeu, zone visee, aire de jeu
target: lieu eclaire
target: eclairage de, ce quil eclaire, objet eclaire, orientation, zone focus
target: donde apunta, zona iluminada, enfoca, enfoca a, enfocado, apuntado a, dirige a, que ilumina
target: punto de enfoque
target: area de actuacion, zona de actuacion, area iluminada
target: illumina, puntare su, puntato, puntato a, puntato verso, zona illuminata, area illuminata
target: messa a fuoco
target: fuoco, fuoco su, mira a, cosa illumina, area scenica, orientamento
target: schijnt op, mikt op, mikpunt, straalt op, gefocust op, focuspunt, speelvlak, speelgebied
target: richtpunt, doelpunt
target: positie op toneel, wijst naar, waar naartoe
target: direcionado para, focado em, area de cena, o que ilumina, focagem, foca, area iluminada
target: rettet mod, rettet pa, lyser pa, lyser mod, lyser mot, lyser, peger pa, peker pa, pekar pa
target: pekar mot, belyser
target: oplyser, belyst, fokusomrade, fokus pa, inriktning, indstilling, innstilling, installning
target: malpunkt, sigtepunkt
target: spelyta, spilleomrade, spilleflade, sted pa scenen, omrade pa scenen, siktet mot
target: kierunek, oswietla, swieci, skierowany na, skierowane na, skierowanie, nakierowany na, na co swieci
target: gdzie swieci, pole gry, miejsce swiecenia, oswietlany obiekt, strefa, obszar, ustawienie, pada na
position: aufhangeort, aufhaengeort, lieu d accroche, lieu daccroche, accrochage, porteuses, no perche
position: zug no
position: colocacion, estructura, varas, stangone, bilancia, collocazione, trekken, ophangplaats, hangplek
position: trekstang
position: estrutura, ophaeng, ophaengning, ophaengssted, stang, traekstang, oppheng, opphengssted
position: ophengning
position: upphangningsplats, hangning, dragstang, zawieszenie, miejsce zawieszenia, sztankiety, wyciag
position: lokalizacja
at: mal fra midt, mal fra midten, avstand mitt, fran centrum, odl, odl od osi, odl od srodka, dystans
at: metrage
at: distance du centre, distancia ao centro, distancia do centro
note: notiz, notizen, zusatz, zubehor, notas, comentario, comentarios, comentari, notitie, notities
note: bijzonderheden, toebehoren, kommentar, kommentarer, bemaerkninger, merknader, anmarkningar, uwagi
note: poznamka, poznamky, huomautus, huom, observacions, note generali, accesorios, accessori, acessorios
"""
