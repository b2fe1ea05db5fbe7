// Built by page/build.mjs from sources d0bdd725f9a8ec8c: change those, and run `make page`.
"use strict";(()=>{function c(e){let t=document.getElementById(e);if(!t)throw new Error(`the page has no ${e}`);return t}var m=e=>c(e);function s(e,t={},...n){let o=document.createElement(e);for(let[a,i]of Object.entries(t))a==="text"?o.textContent=i:a.startsWith("on")?o.addEventListener(a.slice(
2),i):i===!0?o.setAttribute(a,""):i!==!1&&i!==null&&i!==void 0&&o.setAttribute(a,i);for(let a of n)a!==null&&o.append(a);return o}var C=e=>e instanceof Error?e.
message:String(e);async function u(e,t){let n=t===void 0?{}:{method:"POST",body:JSON.stringify(t)};try{return await G(await fetch(e,n))}catch(o){return{status:0,data:{problem:`fi\
dpath has ended (${C(o)}). Start it again.`}}}}async function G(e){let n=(e.headers.get("Content-Type")||"").startsWith("application/json")?await e.json():{problem:await e.
text()};return{status:e.status,data:n}}function L(e,t){let n=s("a",{href:URL.createObjectURL(t),download:e});n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),
6e4)}var h=e=>`f-${e.replace(/\W/g,"-")}`;function I(e,t){return new Promise(n=>{let o="",a=l=>()=>{o=l,r.close()},i=t.map(l=>s("button",{type:"button",text:l,onclick:a(
l)})),r=s("dialog",{},s("p",{text:e}),s("p",{class:"buttons"},...i));r.addEventListener("close",()=>{r.remove(),n(o)}),document.body.append(r),r.showModal()})}function p(e,t=!1){let n=c("said");n.textContent=e,n.hidden=!e,n.classList.toggle("wrong",t),t&&e&&n.scrollIntoView({block:"nearest"})}var K={job:"job",set:"set of lines",loft:"practice file",measured:"measurements",table:"table",other:"other file",broken:"file"};function T(){c("file").addEventListener(
"change",z)}async function v(){let{status:e,data:t}=await u("home");if(e!==200){p(t.problem,!0);return}let n=t;c("folder").textContent=`Job files and results ar\
e kept in ${n.folder}.`;let o=n.files.filter(r=>r.kind==="job"),a=n.files.filter(r=>r.kind!=="job");c("job-list").replaceChildren(o.length>0?A(o):V());let i=s("\
h2",{text:"Other files of the folder"});c("other-files").replaceChildren(...a.length>0?[i,A(a)]:[])}function V(){let e=s("a",{href:"#new",text:"Make a new job"});
return s("p",{},"There is no job yet. ",e," by a few questions, or open a file below.")}var A=e=>s("ul",{class:"files"},...e.map(_));function _(e){let t=new Date(
1e3*e.used).toLocaleString(void 0,{dateStyle:"medium",timeStyle:"short"}),n=[e.about,e.kind==="job"?"":K[e.kind],e.file,t].filter(Boolean).join(", "),o=s("div",
{},s("b",{text:e.title}),s("small",{text:n})),a=s("a",{href:`#edit=${encodeURIComponent(e.file)}`,text:"As text"});if(e.kind!=="job")return s("li",{},o,s("span"),
a);let i=s("button",{type:"button",class:"main",text:"Open","aria-label":`Open ${e.title}`});return i.addEventListener("click",()=>y(e.file,i)),s("li",{},o,i,a)}
async function y(e,t){t&&(t.disabled=!0),p("The job is being opened.");let{status:n,data:o}=await u("open",{file:e});t&&(t.disabled=!1),n===200?location.assign(
o.url):p(`${e} can't be opened: ${o.problem} "As text" lets you put it right.`,!0)}async function z(){let e=m("file"),[t]=e.files||[];if(!t)return;if(t.size>1e6){
p(`${t.name} is too large: a file of fidpath is a few pages of text.`,!0);return}let{status:n,data:o}=await u("add",{name:t.name,text:await t.text()});if(e.value=
"",n!==200){p(o.problem,!0);return}await v();let{data:a}=await u("home"),i=a.files.find(({file:r})=>r===o.file);i&&i.kind==="job"?await y(o.file):p(`${o.file} i\
s in the folder now.`)}var w={file:"",digest:""},j=()=>m("edit-text");function W(){c("edit-save").addEventListener("click",X),c("edit-open").addEventListener("click",()=>y(w.file))}async function U(e){
let{status:t,data:n}=await u(`text/${encodeURIComponent(e)}`);c("edit-head").textContent=e,g(t===200?"":n.problem,!0),j().disabled=t!==200,m("edit-save").disabled=
t!==200,c("edit-open").hidden=!0,t===200&&(j().value=n.text,Object.assign(w,{file:n.file,digest:n.digest}),await R())}async function R(){let{data:e}=await u("ho\
me"),t=(e.files||[]).find(({file:n})=>n===w.file);c("edit-open").hidden=!t||t.kind!=="job"}async function X(){let{status:e,data:t}=await u(`text/${encodeURIComponent(
w.file)}`,{text:j().value,digest:w.digest});if(e!==200){g(t.problem,!0);return}w.digest=t.digest,await R(),t.problem?g(`Saved, but it can't be used yet. ${t.problem}`,
!0):(g("Saved. ",!1),c("edit-said").append(s("a",{href:"#lines",text:"To lines and sets"})))}function g(e,t){c("edit-said").textContent=e,c("edit-said").classList.
toggle("error",t)}var Z=[["What is it called?",["name"]],["The rope",["rope.diameter","rope.strands","rope.weave"]],["The rope's pitch: how far a strand runs for one turn round t\
he rope",["rope.pitch","rope.crossings","rope.over"]],["What sits in the eye",[]],["The other end, and how the splice is made",["line.ends[1].splice","line.capt\
ive_end"]],["What is at hand",["tools.fids"]]],ee=2,te=3,ne=[["unknown","Not measured yet: a usual pitch stands in until you count it"],["count","I have counted\
 crossings along one line on top of the rope"],["known","I know it"]],oe=["rope.weave","terminator.kind","line.ends[1].splice"],se={name:"such as: forestay","ro\
pe.strands":"such as 12","line.captive_end":"such as: made off to the masthead fitting"},f={system:"mm",fields:[],pitch:"unknown"};function q(){c("questions").addEventListener(
"submit",e=>{e.preventDefault(),de()})}async function B(){f.fields.length>0||await H({})}async function H(e){let{status:t,data:n}=await u(`questions/${f.system}`);
if(t!==200){p(n.problem,!0);return}f.fields=n.fields;let o=Z.map(([r,l],d)=>re(r,ie(l,d),n.texts,e,d)),a=s("button",{class:"main",text:"Make the job and open it"}),
i=s("p",{id:"new-wrong",class:"error",role:"alert",hidden:!0});c("questions").replaceChildren(ae(),...o,i,s("p",{class:"buttons"},a)),c(h("terminator.kind")).addEventListener(
"change",P),P(),J()}var ie=(e,t)=>f.fields.filter(({key:n})=>t===te?n.startsWith("terminator."):e.includes(n));function ae(){let e=[["mm","Millimetres"],["in","\
Inches, with fractions"]].map(([t,n])=>Y("units",t,n,f.system===t,()=>{f.system=t,H(M())}));return s("fieldset",{},s("legend",{text:"Units"}),s("div",{class:"wa\
ys"},...e))}function Y(e,t,n,o,a){let i=s("input",{type:"radio",name:e,value:t,checked:o});return i.addEventListener("change",a),s("label",{},i,n)}function re(e,t,n,o,a){
let i=ne.map(([d,k])=>Y("pitch",d,k,f.pitch===d,()=>{f.pitch=d,J()})),r=t.map(d=>ce(d,n,o)),l=a===ee?[s("div",{class:"ways"},...i)]:[];return s("fieldset",{},s(
"legend",{text:e}),...l,...r)}function ce(e,t,n){let o=h(e.key),a=le(e,o,t),i=oe.includes(e.key)?t[e.key]:"";a.value=n[e.key]||i||a.value;let r=s("label",{for:o,
text:e.label},s("small",{text:e.note||e.units})),l=s("p",{class:"error",id:`${o}-error`,role:"status",hidden:!0});return s("div",{class:"field","data-key":e.key},
r,a,l)}function le(e,t,n){let o={id:t,name:e.key,"aria-describedby":`${t}-error`};if(e.kind==="choice")return s("select",o,...e.choices.map(([i,r])=>s("option",
{value:i,text:r})));let a=n[e.key]&&n[e.key]!=="unknown"?`such as ${n[e.key]}`:e.default;return s("input",{...o,placeholder:se[e.key]||a||e.bounds,maxlength:"20\
0",spellcheck:"false"})}var F=e=>m(h(e)).value,E=e=>c(h(e)).closest(".field");function P(){let e=F("terminator.kind");for(let{key:t,of:n}of f.fields)t.startsWith(
"terminator.")&&(E(t).hidden=n.length>0&&!n.includes(e))}function J(){let e={unknown:[],count:["rope.crossings","rope.over"],known:["rope.pitch"]};for(let t of[
"rope.pitch","rope.crossings","rope.over"])E(t).hidden=!e[f.pitch].includes(t)}function M(){let e=f.fields.map(({key:t})=>[t,E(t).hidden?"":F(t)]);return{...Object.
fromEntries(e),...f.pitch==="unknown"?{"rope.pitch":"unknown"}:{}}}async function de(){let{status:e,data:t}=await u("new",{system:f.system,texts:M()});if(t.url){
f.fields=[],location.assign(t.url);return}ue(t.errors||{},t.general||(e===200?"":t.problem))}function ue(e,t){for(let{key:r}of f.fields){let l=c(`${h(r)}-error`);
l.textContent=e[r]||"",l.hidden=!e[r],c(h(r)).setAttribute("aria-invalid",String(!!e[r]))}let n=Object.entries(e).filter(([r])=>!f.fields.some(l=>l.key===r)),o=Object.
keys(e).length>n.length?"Please look at the answers marked above.":"",a=c("new-wrong");a.textContent=[t,...n.map(([,r])=>r),o].filter(Boolean).join(" "),a.hidden=
!a.textContent;let i=document.querySelector("#questions [aria-invalid='true']");i instanceof HTMLElement&&i.focus()}var fe=[{kind:"line",title:"A whole line",words:"From two pins to the rope to cut, every mark, and how sure the length is.",files:[["job","The line's job",["job"],
!0],["loft","Your practice file",["loft"],!1]],example:"line"},{kind:"set",title:"A set of lines",words:"One cut list, the marks of each line, and what to cut f\
rom which spool.",files:[["set","The set",["set","table"],!0],["job","Job for lines that name none",["job"],!1],["spools","Spools in stock",["table"],!1],["loft",
"Your practice file",["loft"],!1]],example:"set"},{kind:"calibration",title:"Calibration",words:"What your own test splices say of how much a bury shortens the \
rope.",files:[["loft","Your practice file",["loft"],!0],["job","What to expect of this job",["job"],!1]],example:"loft"},{kind:"comparison",title:"Planned and m\
easured",words:"What a finished splice measures beside its plan, and what a difference means.",files:[["job","The job",["job"],!0],["measured","What was measure\
d",["measured"],!0],["loft","Your practice file",["loft"],!1]],example:"measured"}];async function N(){let{status:e,data:t}=await u("home");if(e!==200)return;let n=pe();
c("sheets").replaceChildren(...fe.map(o=>me(o,t,n)))}function pe(){let e=document.querySelectorAll("#sheets select");return Object.fromEntries([...e].map(t=>[t.
id,t.value]))}function me(e,t,n){let o=e.files.map(x=>he(e.kind,x,t.files,n)),a=s("p",{class:"error",role:"alert",hidden:!0}),i=s("button",{type:"button",class:"\
main",text:"Show the sheet"});i.addEventListener("click",()=>be(e,a,i));let r=t.examples.find(({key:x})=>x===e.example),l=s("button",{type:"button",text:`Begin ${r?
r.words:"one"}`});l.addEventListener("click",()=>ke(e.example,a));let d=s("h3",{text:e.title}),k=s("p",{text:e.words});return s("div",{class:"card"},d,k,...o,a,
s("p",{class:"buttons"},i,l))}function he(e,[t,n,o,a],i,r){let l=`${e}-${t}`,d=i.filter(b=>o.includes(b.kind)),k=d.map(({file:b,title:S})=>s("option",{value:b,text:S===
b?b:`${S} (${b})`})),x=d.length===0?"there is none yet":"choose one",Q=s("option",{value:"",text:a?x:"none"}),O=s("select",{id:l},Q,...k);return O.value=r[l]||(a&&
d.length===1?d[0].file:""),s("div",{class:"field"},s("label",{for:l,text:n}),O)}async function be(e,t,n){let o=Object.fromEntries(e.files.map(([l])=>[l,m(`${e.kind}\
-${l}`).value]));n.disabled=!0;let{status:a,data:i}=await u("report",{kind:e.kind,files:o});n.disabled=!1;let r=a===200?i.problem:i.problem||"It could not be ma\
de.";t.textContent=r||"",t.hidden=!r,!r&&(c("sheet").hidden=!1,c("sheet-head").textContent=e.title,c("sheet-text").textContent=i.text,c("sheet-takes").replaceChildren(
...we(i)),c("sheet-head").focus(),c("sheet").scrollIntoView())}function we({name:e,text:t,files:n}){let a=[["txt",t],...Object.entries(n)].map(([r,l])=>{let d=s(
"button",{type:"button",text:`Save as ${r.toUpperCase()}`});return d.addEventListener("click",()=>L(`${e}.${r}`,new Blob([l],{type:"text/plain"}))),d}),i=s("but\
ton",{type:"button",text:"Print"});return i.addEventListener("click",()=>window.print()),[i,...a]}async function ke(e,t){let{status:n,data:o}=await u("example",
{key:e});n===200?location.hash=`#edit=${encodeURIComponent(o.file)}`:(t.textContent=o.problem,t.hidden=!1)}var D=["jobs","new","lines","edit"];async function $(){let[e,t]=decodeURIComponent(location.hash.slice(1)).split("="),n=D.includes(e)?e:"jobs";for(let o of D)c(
o).hidden=o!==n;for(let o of document.querySelectorAll("nav a"))o.getAttribute("href")===`#${n}`?o.setAttribute("aria-current","page"):o.removeAttribute("aria-c\
urrent");p(""),n==="jobs"&&await v(),n==="new"&&await B(),n==="lines"&&await N(),n==="edit"&&await U(t||"")}async function xe(){if(await I("End fidpath? What is\
 being built stops. Figures that you haven't saved are lost.",["End fidpath","Go on"])!=="End fidpath")return;await u("end",{});let t=s("p",{text:"fidpath has e\
nded. You can close this window."});document.body.replaceChildren(s("main",{},s("h1",{text:"fidpath"}),t))}c("end").addEventListener("click",xe);window.addEventListener(
"hashchange",$);window.addEventListener("pageshow",e=>{e.persisted&&$()});T();q();W();$();})();
