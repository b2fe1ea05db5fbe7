// Built by page/build.mjs from sources 975d64c23cc53efc: change those, and run `make page`.
"use strict";(()=>{function c(e){let t=document.getElementById(e);if(!t)throw new Error(`the page has no ${e}`);return t}var m=e=>c(e);function s(e,t={},...n){let o=document.createElement(e);for(let[a,i]of Object.entries(t))a==="text"?o.textContent=i:a.startsWith("on")?o.addEventListener(a.slice(
2),i):i===!0?o.setAttribute(a,""):i!==!1&&i!==null&&i!==void 0&&o.setAttribute(a,i);for(let a of n)a!==null&&o.append(a);return o}var I=e=>e instanceof Error?e.
message:String(e);async function d(e,t){let n=t===void 0?{}:{method:"POST",body:JSON.stringify(t)};try{return await G(await fetch(e,n))}catch(o){return{status:0,data:{problem:`fi\
dpath has ended (${I(o)}). Start it again.`}}}}async function G(e){let n=(e.headers.get("Content-Type")||"").startsWith("application/json")?await e.json():{problem:await e.
text()};return{status:e.status,data:n}}function L(e,t){let n=s("a",{href:URL.createObjectURL(t),download:e});n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),
6e4)}var h=e=>`f-${e.replace(/\W/g,"-")}`;function A(e,t){return new Promise(n=>{let o="",a=l=>()=>{o=l,r.close()},i=t.map(l=>s("button",{type:"button",text:l,onclick:a(
l)})),r=s("dialog",{},s("p",{text:e}),s("p",{class:"buttons"},...i));r.addEventListener("close",()=>{r.remove(),n(o)}),document.body.append(r),r.showModal()})}function p(e,t=!1){let n=c("said");n.textContent=e,n.hidden=!e,n.classList.toggle("wrong",t),t&&e&&n.scrollIntoView({block:"nearest"})}var V={job:"job",set:"set of lines",loft:"practice file",measured:"measurements",table:"table",other:"other file",broken:"file"};function W(){c("file").addEventListener(
"change",X)}async function j(){let{status:e,data:t}=await d("home");if(e!==200){p(t.problem,!0);return}let n=t;c("folder").textContent=`Job files and results ar\
e kept in ${n.folder}.`;let o=n.files.filter(r=>r.kind==="job"),a=n.files.filter(r=>r.kind!=="job");c("job-list").replaceChildren(o.length>0?T(o):_());let i=s("\
h2",{text:"Other files of the folder"});c("other-files").replaceChildren(...a.length>0?[i,T(a)]:[])}function _(){let e=s("a",{href:"#new",text:"Make a new job"});
return s("p",{},"There is no job yet. ",e," by a few questions, or open a file below.")}var T=e=>s("ul",{class:"files"},...e.map(z));function z(e){let t=new Date(
1e3*e.used).toLocaleString(void 0,{dateStyle:"medium",timeStyle:"short"}),n=[e.about,e.kind==="job"?"":V[e.kind],e.file,t].filter(Boolean).join(", "),o=s("div",
{},s("b",{text:e.title}),s("small",{text:n})),a=s("a",{href:`#edit=${encodeURIComponent(e.file)}`,text:"As text"});if(e.kind!=="job")return s("li",{},o,s("span"),
a);let i=s("button",{type:"button",class:"main",text:"Open","aria-label":`Open ${e.title}`});return i.addEventListener("click",()=>y(e.file,i)),s("li",{},o,i,a)}
async function y(e,t){t&&(t.disabled=!0),p("The job is being opened.");let{status:n,data:o}=await d("open",{file:e});t&&(t.disabled=!1),n===200?location.assign(
o.url):p(`${e} can't be opened: ${o.problem} "As text" lets you put it right.`,!0)}async function X(){let e=m("file"),[t]=e.files||[];if(!t)return;if(t.size>1e6){
p(`${t.name} is too large: a file of fidpath is a few pages of text.`,!0);return}let{status:n,data:o}=await d("add",{name:t.name,text:await t.text()});if(e.value=
"",n!==200){p(o.problem,!0);return}await j();let{data:a}=await d("home"),i=a.files.find(({file:r})=>r===o.file);i&&i.kind==="job"?await y(o.file):p(`${o.file} i\
s in the folder now.`)}var w={file:"",digest:""},E=()=>m("edit-text");function U(){c("edit-save").addEventListener("click",Z),c("edit-open").addEventListener("click",()=>y(w.file))}async function R(e){
let{status:t,data:n}=await d(`text/${encodeURIComponent(e)}`);c("edit-head").textContent=e,g(t===200?"":n.problem,!0),E().disabled=t!==200,m("edit-save").disabled=
t!==200,c("edit-open").hidden=!0,t===200&&(E().value=n.text,Object.assign(w,{file:n.file,digest:n.digest}),await P())}async function P(){let{data:e}=await d("ho\
me"),t=(e.files||[]).find(({file:n})=>n===w.file);c("edit-open").hidden=!t||t.kind!=="job"}async function Z(){let{status:e,data:t}=await d(`text/${encodeURIComponent(
w.file)}`,{text:E().value,digest:w.digest});if(e!==200){g(t.problem,!0);return}w.digest=t.digest,await P(),t.problem?g(`Saved, but it can't be used yet. ${t.problem}`,
!0):(g("Saved. ",!1),c("edit-said").append(s("a",{href:"#lines",text:"To lines and sets"})))}function g(e,t){c("edit-said").textContent=e,c("edit-said").classList.
toggle("error",t)}var ee=[["What is it called?",["name"]],["The rope",["rope.diameter","rope.strands","rope.weave"]],["The rope's pitch: how far a strand runs for one turn round \
the rope",["rope.pitch","rope.crossings","rope.over"]],["What sits in the eye",[]],["The other end, and how the splice is made",["line.ends[1].splice","line.cap\
tive_end"]],["What is at hand",["tools.fids"]]],te=2,ne=3,oe=[["unknown","Not measured yet: a usual pitch stands in until you count it"],["count","I have counte\
d crossings along one line on top of the rope"],["known","I know it"]],se=["rope.weave","terminator.kind","line.ends[1].splice"],ie={name:"such as: forestay","r\
ope.strands":"such as 12","line.captive_end":"such as: made off to the masthead fitting"},f={system:"mm",fields:[],pitch:"unknown"};function B(){c("questions").
addEventListener("submit",e=>{e.preventDefault(),ue()})}async function H(){f.fields.length>0||await Y({})}async function Y(e){let{status:t,data:n}=await d(`ques\
tions/${f.system}`);if(t!==200){p(n.problem,!0);return}f.fields=n.fields;let o=ee.map(([r,l],u)=>ce(r,ae(l,u),n.texts,e,u)),a=s("button",{class:"main",text:"Mak\
e the job and open it"}),i=s("p",{id:"new-wrong",class:"error",role:"alert",hidden:!0});c("questions").replaceChildren(re(),...o,i,s("p",{class:"buttons"},a)),c(
h("terminator.kind")).addEventListener("change",q),q(),M()}var ae=(e,t)=>f.fields.filter(({key:n})=>t===ne?n.startsWith("terminator."):e.includes(n));function re(){
let e=[["mm","Millimetres"],["in","Inches, with fractions"]].map(([t,n])=>F("units",t,n,f.system===t,()=>{f.system=t,Y(N())}));return s("fieldset",{},s("legend",
{text:"Units"}),s("div",{class:"ways"},...e))}function F(e,t,n,o,a){let i=s("input",{type:"radio",name:e,value:t,checked:o});return i.addEventListener("change",
a),s("label",{},i,n)}function ce(e,t,n,o,a){let i=oe.map(([u,k])=>F("pitch",u,k,f.pitch===u,()=>{f.pitch=u,M()})),r=t.map(u=>le(u,n,o)),l=a===te?[s("div",{class:"\
ways"},...i)]:[];return s("fieldset",{},s("legend",{text:e}),...l,...r)}function le(e,t,n){let o=h(e.key),a=de(e,o,t),i=se.includes(e.key)?t[e.key]:"";a.value=n[e.
key]||i||a.value;let r=s("label",{for:o,text:e.label},s("small",{text:e.note||e.units})),l=s("p",{class:"error",id:`${o}-error`,role:"status",hidden:!0});return s(
"div",{class:"field","data-key":e.key},r,a,l)}function de(e,t,n){let o={id:t,name:e.key,"aria-describedby":`${t}-error`};if(e.kind==="choice")return s("select",
o,...e.choices.map(([i,r])=>s("option",{value:i,text:r})));let a=n[e.key]&&n[e.key]!=="unknown"?`such as ${n[e.key]}`:e.default;return s("input",{...o,placeholder:ie[e.
key]||a||e.bounds,maxlength:"200",spellcheck:"false"})}var J=e=>m(h(e)).value,O=e=>c(h(e)).closest(".field");function q(){let e=J("terminator.kind");for(let{key:t,
of:n}of f.fields)t.startsWith("terminator.")&&(O(t).hidden=n.length>0&&!n.includes(e))}function M(){let e={unknown:[],count:["rope.crossings","rope.over"],known:[
"rope.pitch"]};for(let t of["rope.pitch","rope.crossings","rope.over"])O(t).hidden=!e[f.pitch].includes(t)}function N(){let e=f.fields.map(({key:t})=>[t,O(t).hidden?
"":J(t)]);return{...Object.fromEntries(e),...f.pitch==="unknown"?{"rope.pitch":"unknown"}:{}}}async function ue(){let{status:e,data:t}=await d("new",{system:f.system,
texts:N()});if(t.url){f.fields=[],location.assign(t.url);return}fe(t.errors||{},t.general||(e===200?"":t.problem))}function fe(e,t){for(let{key:r}of f.fields){let l=c(
`${h(r)}-error`);l.textContent=e[r]||"",l.hidden=!e[r],c(h(r)).setAttribute("aria-invalid",String(!!e[r]))}let n=Object.entries(e).filter(([r])=>!f.fields.some(
l=>l.key===r)),o=Object.keys(e).length>n.length?"Please look at the answers marked above.":"",a=c("new-wrong");a.textContent=[t,...n.map(([,r])=>r),o].filter(Boolean).
join(" "),a.hidden=!a.textContent;let i=document.querySelector("#questions [aria-invalid='true']");i instanceof HTMLElement&&i.focus()}var pe=[{kind:"line",title:"A whole line",words:"From two pins to the rope to cut, every mark, and how sure the length is.",files:[["job","The line's job",["job"],
!0],["loft","Your practice file",["loft"],!1]],example:"line"},{kind:"set",title:"A set of lines",words:"One cut list, the marks of each line, and what to cut f\
rom which spool.",files:[["set","The set",["set","table"],!0],["job","Job for lines that name none",["job"],!1],["spools","Spools in stock",["table"],!1],["loft",
"Your practice file",["loft"],!1]],example:"set"},{kind:"calibration",title:"Calibration",words:"What your own test splices say of how much a bury shortens the \
rope.",files:[["loft","Your practice file",["loft"],!0],["job","What to expect of this job",["job"],!1]],example:"loft"},{kind:"comparison",title:"Planned and m\
easured",words:"What a finished splice measures beside its plan, and what a difference means.",files:[["job","The job",["job"],!0],["measured","What was measure\
d",["measured"],!0],["loft","Your practice file",["loft"],!1]],example:"measured"}];async function D(){let{status:e,data:t}=await d("home");if(e!==200)return;let n=me();
c("sheets").replaceChildren(...pe.map(o=>he(o,t,n)))}function me(){let e=document.querySelectorAll("#sheets select");return Object.fromEntries([...e].map(t=>[t.
id,t.value]))}function he(e,t,n){let o=e.files.map(x=>be(e.kind,x,t.files,n)),a=s("p",{class:"error",role:"alert",hidden:!0}),i=s("button",{type:"button",class:"\
main",text:"Show the sheet"});i.addEventListener("click",()=>we(e,a,i));let r=t.examples.find(({key:x})=>x===e.example),l=s("button",{type:"button",text:`Begin ${r?
r.words:"one"}`});l.addEventListener("click",()=>xe(e.example,a));let u=s("h3",{text:e.title}),k=s("p",{text:e.words});return s("div",{class:"card"},u,k,...o,a,
s("p",{class:"buttons"},i,l))}function be(e,[t,n,o,a],i,r){let l=`${e}-${t}`,u=i.filter(b=>o.includes(b.kind)),k=u.map(({file:b,title:C})=>s("option",{value:b,text:C===
b?b:`${C} (${b})`})),x=u.length===0?"there is none yet":"choose one",Q=s("option",{value:"",text:a?x:"none"}),S=s("select",{id:l},Q,...k);return S.value=r[l]||(a&&
u.length===1?u[0].file:""),s("div",{class:"field"},s("label",{for:l,text:n}),S)}async function we(e,t,n){let o=Object.fromEntries(e.files.map(([l])=>[l,m(`${e.kind}\
-${l}`).value]));n.disabled=!0;let{status:a,data:i}=await d("report",{kind:e.kind,files:o});n.disabled=!1;let r=a===200?i.problem:i.problem||"It could not be ma\
de.";t.textContent=r||"",t.hidden=!r,!r&&(c("sheet").hidden=!1,c("sheet-head").textContent=e.title,c("sheet-text").textContent=i.text,c("sheet-takes").replaceChildren(
...ke(i)),c("sheet-head").focus(),c("sheet").scrollIntoView())}function ke({name:e,text:t,files:n}){let a=[["txt",t],...Object.entries(n)].map(([r,l])=>{let u=s(
"button",{type:"button",text:`Save as ${r.toUpperCase()}`});return u.addEventListener("click",()=>L(`${e}.${r}`,new Blob([l],{type:"text/plain"}))),u}),i=s("but\
ton",{type:"button",text:"Print"});return i.addEventListener("click",()=>window.print()),[i,...a]}async function xe(e,t){let{status:n,data:o}=await d("example",
{key:e});n===200?location.hash=`#edit=${encodeURIComponent(o.file)}`:(t.textContent=o.problem,t.hidden=!1)}var K=["jobs","new","lines","edit"],ye=2e4;async function v(){let[e,t]=decodeURIComponent(location.hash.slice(1)).split("="),n=K.includes(e)?e:"jobs";for(let o of K)
c(o).hidden=o!==n;for(let o of document.querySelectorAll("nav a"))o.getAttribute("href")===`#${n}`?o.setAttribute("aria-current","page"):o.removeAttribute("aria\
-current");p(""),n==="jobs"&&await j(),n==="new"&&await H(),n==="lines"&&await D(),n==="edit"&&await R(t||"")}async function ge(){let{status:e,data:t}=await d("\
here"),n=e===0;n&&!$&&p(t.problem,!0),!n&&$&&await v(),$=n}async function ve(){if(await A("End fidpath? What is being built stops. Figures that you haven't save\
d are lost.",["End fidpath","Go on"])!=="End fidpath")return;clearInterval(je),await d("end",{});let t=s("p",{text:"fidpath has ended. You can close this window\
."});document.body.replaceChildren(s("main",{},s("h1",{text:"fidpath"}),t))}var $=!1,je=setInterval(ge,ye);c("end").addEventListener("click",ve);window.addEventListener(
"hashchange",v);window.addEventListener("pageshow",e=>{e.persisted&&v()});W();B();U();v();})();
